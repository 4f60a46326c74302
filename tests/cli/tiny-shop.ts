import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { DocumentInput } from '../../src/describe/document.ts'

/** A lamp on a battery: two wires and a fuse, nothing wrong with it. `edit` spoils it. */
export function tinyShop(edit: (shop: TinyShop) => void = () => undefined): TinyShop {
  const shop: TinyShop = {
    loomwright: 1,
    equipment: [
      {
        id: 'battery-12',
        title: 'Battery',
        role: 'battery',
        connectors: [
          {
            id: 'PLUS',
            family: 'stud-m6',
            pins: {
              1: {
                kind: 'supply-out',
                name: '+',
                volts: '12.0..14.4 V',
                battery: true,
                feed: 'permanent',
                capacity: '60 Ah',
              },
            },
          },
          { id: 'MINUS', family: 'stud-m6', pins: { 1: { kind: 'return', name: '-' } } },
        ],
      },
      {
        id: 'lamp',
        title: 'Work lamp',
        role: 'load',
        connectors: [
          {
            id: 'J1',
            family: 'rect-power-2',
            half: 'pin',
            view: 'wire-entry',
            record: 'maker',
            pins: {
              1: {
                kind: 'supply-in',
                name: '+',
                port: 'dc',
                volts: '10..15 V',
                amps: { off: '0 A', standby: '2 A' },
              },
              2: { kind: 'return', name: '-', port: 'dc' },
            },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'lamp-lead',
        title: 'Lamp lead',
        connectors: [
          { id: 'X1', family: 'ring-m6', fits: 'battery-12.PLUS', contact: 'ring-blue', label: 'PLUS' },
          { id: 'X2', family: 'ring-m6', fits: 'battery-12.MINUS', contact: 'ring-blue', label: 'MINUS' },
          {
            id: 'P1',
            family: 'rect-power-2',
            half: 'socket',
            fits: 'lamp.J1',
            contact: 'rect-power',
            view: 'wire-entry',
            label: 'LAMP',
          },
        ],
        components: [{ kind: 'fuse', id: 'F1', part: 'blade-5' }],
        wires: [
          {
            id: 'A01',
            from: 'X1.1',
            to: 'F1.in',
            size: '1.5 mm²',
            colour: 'RD',
            length: '0.1 m',
            part: 'vehicle-thin-wall',
          },
          {
            id: 'A02',
            from: 'F1.out',
            to: 'P1.1',
            size: '1.5 mm²',
            colour: 'RD',
            length: '1.5 m',
            part: 'vehicle-thin-wall',
          },
          {
            id: 'A03',
            from: 'X2.1',
            to: 'P1.2',
            size: '1.5 mm²',
            colour: 'BK',
            length: '1.6 m',
            part: 'vehicle-thin-wall',
          },
        ],
      },
    ],
    installations: [
      {
        id: 'van',
        title: 'Van',
        supply: '13.8 V',
        units: [
          { id: 'battery', of: 'battery-12' },
          { id: 'lamp', of: 'lamp' },
        ],
        looms: [{ id: 'lead', of: 'lamp-lead' }],
      },
    ],
  }
  edit(shop)
  return shop
}

type TinyShop = DocumentInput & Required<Pick<DocumentInput, 'equipment' | 'harnesses' | 'installations'>>

/** The wire of the tiny shop at an index; tests spoil it. */
export function wireOf(shop: TinyShop, index: number) {
  const wire = shop.harnesses[0]?.wires?.[index]
  if (!wire) throw new Error(`the tiny shop has no wire ${index}`)
  return wire
}

/** The return wire on the feed's stud: plus meets minus through the lamp's connector, a stop. */
export const crossed = (shop: TinyShop): void => {
  wireOf(shop, 2).to = 'P1.1'
}

/** Writes files into a new folder and gives its path. Objects become JSON. */
export function writeShop(folder: string, files: Readonly<Record<string, unknown>>): string {
  for (const [name, content] of Object.entries(files)) {
    const path = join(folder, name)
    mkdirSync(dirname(path), { recursive: true })
    const raw = typeof content === 'string' || content instanceof Uint8Array
    writeFileSync(path, raw ? content : JSON.stringify(content, null, 2))
  }
  return folder
}
