import type { Block, Conductor, EndRef, SheetModel, Shield, Trunk } from '../../src/draw/sheet-model.ts'

/** Small repeatable pseudo-random numbers (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

const COLOURS = [
  'BK',
  'BN',
  'RD',
  'OG',
  'YE',
  'GN',
  'BU',
  'VT',
  'GY',
  'WH',
  'PK',
  'TQ',
  'GNYE',
  'WHBU',
  'RDBK',
]
const SIZES = ['0.22 (≈24)', '0.5 (≈20)', '18 AWG (0.823)', '1.5 (≈16)', '6 (≈10)']
const NAMES = [
  'SPK +',
  'SPK −',
  'GND',
  'AUDIO HI',
  'AUDIO LO',
  'PTT',
  'TXD',
  'RXD',
  '+13.8 V OUT',
  'IGNITION SENSE',
  '',
  'Übertragung µΩ',
]

interface Draft {
  readonly blocks: Block[]
  readonly conductors: Conductor[]
  readonly trunks: Trunk[]
}

/** A made-up harness of about `wires` conductors with pairs, screens, cables, fuses, splices, studs and relays. */
export function generatedHarness(seed: number, wires: number): SheetModel {
  const random = randomFrom(seed)
  const upTo = (n: number) => Math.floor(random() * n)
  const pick = <T>(list: readonly T[]): T => list[upTo(list.length)] as T
  const draft: Draft = { blocks: [], conductors: [], trunks: [] }
  const free: { block: string; pins: string[] }[] = []
  const strips = Math.max(2, Math.ceil(wires / 7))
  for (let s = 0; s < strips; s++) {
    const ways = 2 + upTo(20)
    const id = `P${s + 1}`
    const pins = Array.from({ length: ways }, (_, i) => String(i + 1))
    const rows = pins.map((pin) => ({
      key: pin,
      pin,
      name: pick(NAMES),
      ...(random() < 0.1 ? { contact: 'crimp 20' } : {}),
    }))
    free.push({ block: id, pins: [...pins] })
    const idle = random() < 0.3 ? [{ state: 'closed with plug', pins: ['A', 'B', 'C'] }] : []
    draft.blocks.push({
      kind: 'strip',
      id,
      title: `${id} ${pick(['to radio', 'dash', '', 'rear speaker left'])}`,
      subtitle: `${ways}-way housing`,
      sections: [{ id, rows, idle }],
    })
  }
  const take = (): EndRef => {
    const open = free.filter((f) => f.pins.length > 0)
    const from = open.length > 0 ? pick(open) : pick(free)
    const pin = from.pins.shift() ?? '1'
    return { block: from.block, pin }
  }
  let n = 0
  const add = (from: EndRef, to: EndRef): Conductor => {
    const flags =
      random() < 0.05 ? [{ number: 1 + upTo(12), level: pick(['error', 'warning', 'note'] as const) }] : []
    const c: Conductor = {
      id: `A${String(++n).padStart(2, '0')}`,
      from,
      to,
      colour: pick(COLOURS),
      size: pick(SIZES),
      flags,
    }
    draft.conductors.push(c)
    return c
  }
  const cable = (cores: number) => {
    const a = pick(free).block
    const b = pick(free.filter((f) => f.block !== a)).block
    const end = (block: string): EndRef => {
      const pins = free.find((f) => f.block === block)?.pins ?? []
      return pins.length > 0 ? { block, pin: pins.shift() ?? '1' } : take()
    }
    const own = Array.from({ length: cores }, () => add(end(a), end(b)))
    const pairs: [string, string][] = []
    for (let i = 0; i + 1 < own.length && random() < 0.6; i += 2)
      pairs.push([own[i]?.id ?? '', own[i + 1]?.id ?? ''])
    const id = `W${draft.trunks.length + 1}`
    const shields: Shield[] = []
    if (random() < 0.5)
      shields.push({ id: `${id}s`, covers: [], from: end(a), ...(random() < 0.4 ? { to: end(b) } : {}) })
    const [pair] = pairs
    if (pair && cores > 2 && random() < 0.5) shields.push({ id: `${id}p`, covers: pair, from: end(a) })
    draft.trunks.push({
      id,
      title: `${id} ${cores} cores`,
      jacket: cores > 2,
      conductors: own.map((c) => c.id),
      pairs,
      shields,
    })
  }
  while (n < wires) {
    const dice = random()
    if (dice < 0.12) cable(2)
    else if (dice < 0.17) cable(3 + upTo(4))
    else if (dice < 0.27) {
      const id = `F${draft.blocks.length}`
      const symbol = pick(['fuse', 'diode', 'resistor', 'switch'] as const)
      draft.blocks.push({ kind: 'inline', id, title: id, subtitle: '5 A', symbol, pins: ['1', '2'] })
      add(take(), { block: id, pin: '1' })
      for (let k = 1 + upTo(2); k > 0; k--) add({ block: id, pin: '2' }, take())
    } else if (dice < 0.32) {
      const id = `SP${draft.blocks.length}`
      draft.blocks.push({ kind: 'splice', id, title: id })
      for (let k = 3 + upTo(3); k > 0; k--) add(take(), { block: id, pin: id })
    } else if (dice < 0.36) {
      const id = `E${draft.blocks.length}`
      draft.blocks.push({
        kind: 'stud',
        id,
        title: id,
        subtitle: 'M6 stud',
        symbol: pick(['chassis', 'earth', 'terminal'] as const),
      })
      for (let k = 1 + upTo(4); k > 0; k--) add(take(), { block: id, pin: id })
    } else if (dice < 0.39) {
      const id = `K${draft.blocks.length}`
      draft.blocks.push({
        kind: 'relay',
        id,
        title: `${id} relay`,
        subtitle: 'coil 80 Ω',
        coil: ['85', '86'],
        common: '30',
        open: '87',
        ...(random() < 0.5 ? { closed: '87a' } : {}),
      })
      for (const pin of ['85', '86', '30', '87']) add(take(), { block: id, pin })
    } else add(take(), take())
  }
  return {
    titleBlock: { title: `Generated ${seed}`, documentType: 'Wiring drawing' },
    blocks: draft.blocks,
    conductors: draft.conductors,
    trunks: draft.trunks,
  }
}
