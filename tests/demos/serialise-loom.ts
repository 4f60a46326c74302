import type { Loom, Terminal } from '../../src/resolve/loom.ts'

const address = (terminal: Terminal | undefined) => terminal?.address

/** Everything a loom says, as text without circles. Places are left out: they differ between TypeScript and JSON. */
export function serialiseLoom(loom: Loom): string {
  return JSON.stringify(
    {
      id: loom.id,
      kind: loom.kind,
      title: loom.title,
      setting: loom.setting,
      structure: loom.structure,
      supplyVolts: loom.supplyVolts,
      ambientCelsius: loom.ambientCelsius,
      states: loom.states,
      stated: loom.settings.stated,
      source: loom.source,
      units: loom.units.map(({ id, title, zone, equipment }) => ({ id, title, zone, equipment })),
      looms: loom.looms.map(({ id, harness }) => ({ id, harness })),
      halves: loom.halves.map((half) => ({
        address: half.address,
        family: half.family,
        gender: half.gender,
        coding: half.coding,
        mates: half.mates.map((mate) => mate.address),
      })),
      terminals: loom.terminals.map(({ address: at, does }) => ({ at, does })),
      conductors: loom.conductors.map((one) => ({
        address: one.address,
        kind: one.kind,
        from: address(one.from),
        to: address(one.to),
        size: one.size,
        colour: one.colour,
        lengthMm: one.lengthMm,
        pair: one.pair,
        wirePart: one.wirePart,
        zone: one.zone,
      })),
      links: loom.links.map(({ kind, a, b, ohms }) => ({ kind, a: a.address, b: b.address, ohms })),
      nets: loom.nets.map(({ name, terminals }) => ({ name, terminals: terminals.map(address) })),
      circuits: loom.circuits.map(({ nets }) => nets.map((net) => net.index)),
      findings: loom.findings.map(({ rule, subject, what }) => ({ rule, subject, what })),
    },
    null,
    1,
  )
}
