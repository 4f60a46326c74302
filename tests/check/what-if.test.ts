import { describe, expect, test } from 'vitest'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import { bridgedLegGrounded } from '../../src/check/rules/bridged-leg-grounded.ts'
import { cableFaultKeys } from '../../src/check/rules/cable-fault-keys.ts'
import { groundLost } from '../../src/check/rules/ground-lost.ts'
import { isolatorBackFed } from '../../src/check/rules/isolator-back-fed.ts'
import { plugsNotInterchangeable } from '../../src/check/rules/plugs-not-interchangeable.ts'
import { shortOpensFuse } from '../../src/check/rules/short-opens-fuse.ts'
import type { TrialKind } from '../../src/check/what-if/trial.ts'
import { whatIf } from '../../src/check/what-if/what-if.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { cells } from '../../src/report/text-layout.ts'
import { whatIfText } from '../../src/report/what-if-text.ts'
import { unplugPlugs } from '../../src/solve/simulate/unplug-plugs.ts'
import { solve } from '../../src/solve/solve.ts'
import { job } from '../demos/demo-shop.ts'
import { onlyLoom } from './check-document.ts'

const tried = (data: DocumentInput) => {
  const loom = onlyLoom(data)
  const solution = solve(loom)
  return whatIf({ loom, solution, paths: solution.paths })
}
const ofKind = (data: DocumentInput, kind: TrialKind) =>
  tried(data).find((set) => set.kind === kind)?.trials ?? []
const ofJob = (id: string, kind: TrialKind) => {
  const { loom, solution } = job(id)
  return whatIf({ loom, solution, paths: solution.paths }).find((set) => set.kind === kind)
}

describe('each trial comes to what its rule finds', () => {
  test.each([
    ['swap', plugsNotInterchangeable, /12\.00 V on microphone\.J4\.1/],
    ['ground', groundLost, /A05 carries the supply current instead/],
    ['unplug', cableFaultKeys, /radio\.J1\.1 comes on unasked/],
    ['short', shortOpensFuse, /F1 \(5 A\) opens /],
    ['isolator', isolatorBackFed, /lamp\.J\.1 is still fed, through something else/],
  ] as const)('%s', (kind, rule, outcome) => {
    const bad = ofKind(rule.examples.trips, kind).filter(({ level }) => level !== 'fine')
    expect(bad.length).toBeGreaterThan(0)
    expect(bad[0]?.outcome).toMatch(outcome)
    expect(bad[0]?.path.length).toBeGreaterThan(0)
    expect(ofKind(rule.examples.passes, kind).filter(({ level }) => level !== 'fine')).toEqual([])
  })
})

describe('a plug that is pulled', () => {
  const two = wired({
    units: { supply: cell({ maxAmps: '5 A' }), lamp: load('1 A'), radio: load('2 A') },
    components: [{ id: 'F1', kind: 'fuse', rating: '5 A' }],
    splices: ['SP1', 'SP2'],
    runs: [
      ['supply.1', 'F1.in', { length: '0.1 m' }],
      ['F1.out', 'SP1'],
      ['SP1', 'lamp.1'],
      ['SP1', 'radio.1'],
      ['lamp.2', 'SP2'],
      ['radio.2', 'SP2'],
      ['SP2', 'supply.2'],
    ],
  })
  const loom = onlyLoom(two)
  const solution = solve(loom)
  const pulled = unplugPlugs(loom, solution.paths, solution)
  const dead = (id: string) => pulled.find(({ half }) => half.id === id)

  test('takes what it feeds with it, and no more', () => {
    expect(dead('P1')?.dead.map(({ address }) => address)).toEqual(['lamp.J.1', 'radio.J.1'])
    expect(dead('P1')?.amps).toBeCloseTo(3, 9)
    expect(dead('P2')?.dead.map(({ address }) => address)).toEqual(['lamp.J.1'])
    expect(dead('P2')?.amps).toBeCloseTo(1, 9)
  })

  test('leaves a load fed without its return where the two go through different plugs', () => {
    const apart: DocumentInput = {
      ...two,
      equipment: (two.equipment ?? []).map((unit) =>
        unit.id === 'lamp'
          ? {
              ...unit,
              connectors: [
                {
                  ...unit.connectors[0],
                  id: 'J',
                  family: 'row-2',
                  pins: { '1': { kind: 'supply-in', port: 'dc', amps: '1 A' } },
                },
                {
                  id: 'K',
                  family: 'row-2',
                  half: 'socket',
                  view: 'mating',
                  pins: { '2': { kind: 'return', port: 'dc' } },
                },
              ],
            }
          : unit,
      ) as DocumentInput['equipment'],
      harnesses: (two.harnesses ?? []).map((one) => ({
        ...one,
        connectors: [...one.connectors, { id: 'P9', family: 'row-2', half: 'pin' as const, fits: 'lamp.K' }],
        wires: (one.wires ?? []).map((wire) => (wire.from === 'P2.2' ? { ...wire, from: 'P9.2' } : wire)),
      })),
    }
    const [trial] = ofKind(apart, 'unplug').filter(({ subject }) => subject === 'lead.P9')
    expect(trial).toMatchObject({ level: 'warning', outcome: 'lamp.J.1 keeps its feed and loses its return' })
  })

  test('puts a set to sleep whose sense wire goes through it', () => {
    const p2 = ofJob('council-pickup', 'unplug')?.trials.find(({ subject }) => subject === 'main.P2')
    expect(p2?.outcome).toBe('radio.J1.1 falls asleep: its sense pin is dead')
  })
})

test('fourteen equal stations are one line, and all are counted', () => {
  const grounds = ofJob('theatre', 'ground')
  expect(grounds?.count).toBeGreaterThan(14)
  expect(grounds?.trials.length).toBeLessThan(4)
  expect(grounds?.trials.reduce((sum, { alike }) => sum + 1 + alike.length, 0)).toBe(grounds?.count)
})

test('worst first, and the planned pickup is caught where its rule catches it', () => {
  const [worst] = ofJob('council-pickup-planned', 'swap')?.trials ?? []
  expect(worst).toMatchObject({ level: 'stop', subject: 'main.P4', figure: '14.40 V' })
  expect(ofJob('council-pickup', 'swap')?.trials).toEqual([])
})

test.each([70, 110])('for a terminal of %i cells every set is told, even an empty one', (width) => {
  const text = whatIfText([{ job: 'van', sets: tried(bridgedLegGrounded.examples.passes) }], width)
  for (const title of [
    'Plugs swapped',
    'Grounds lost',
    'Plugs pulled',
    'Far ends shorted',
    'Switches opened',
  ])
    expect(text).toContain(title)
  expect(text.split('\n').filter((line) => cells(line) > width)).toEqual([])
})
