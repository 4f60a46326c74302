import type { DocumentInput } from '../../src/describe/document.ts'

type Harness = NonNullable<DocumentInput['harnesses']>[number]
type Installation = NonNullable<DocumentInput['installations']>[number]

/** What people type, in good faith and in bad. */
const TEXTS = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '{{constructor}} ${x} &amp; &lt;b&gt;',
  'لوحة التحكم (P1) → 12 V',
  'תיבת נתיכים F3, "חדש"',
  '\u202egnp.exe \u2066x',
  '🚒🧯 日本語の配線 / 無線機',
  'Größe & Länge: "Straße" é\u0301\u0301',
  `${'L'.repeat(60)}`,
  'A/B\\C | D, 50 % `code` *bold* [x](y)',
  '=HYPERLINK("http://x.invalid")',
] as const

/** Ends of names: folders, devices, other scripts, and what folds into the same file name. */
const NAMES = [
  '',
  '/etc/x',
  '-Ä',
  '-ä',
  '-A',
  '本日',
  '日本',
  '&b',
  '🚒',
  '$(x)',
  '%2e%2e%2f',
  '`ls`',
  'ملف',
  '|',
  '-',
] as const

const LIMITS: Readonly<Record<string, number>> = {
  title: 60,
  note: 78,
  label: 60,
  drawnBy: 60,
  checkedBy: 60,
  by: 60,
  what: 78,
  document: 32,
  asset: 60,
}

/** Every prose field of a value as one of the texts; names that others refer to stay. */
function spoil<T>(value: T, next: () => string): T {
  if (Array.isArray(value)) return value.map((item) => spoil(item, next)) as T
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => {
      const limit = LIMITS[key]
      const isProse = limit !== undefined && typeof item === 'string'
      return [key, isProse ? [...next()].slice(0, limit).join('') : spoil(item, next)]
    }),
  ) as T
}

const without = <T extends object>(value: T, ...keys: string[]): T =>
  Object.fromEntries(Object.entries(value).filter(([key]) => !keys.includes(key))) as T

/** Some looms have every figure, some have none, and some give hundreds of findings. */
function variant(harness: Harness, index: number): Harness {
  const wires = harness.wires ?? []
  if (index % 5 === 1)
    return { ...harness, wires: wires.map((wire) => without(wire, 'length', 'colour')) } as Harness
  if (index % 20 === 3)
    return { ...harness, wires: wires.map((wire) => ({ ...wire, label: 'the same' })) } as Harness
  return harness
}

/**
 * A shop of so many harnesses made from those of a sound one, with accents, slashes, quotes, scripts, emoji, text from right to
 * left and HTML in every field, and an installation for every other round of the original's.
 */
export function largeShop(base: DocumentInput, count: number): DocumentInput {
  let turn = 0
  const next = (): string => TEXTS[turn++ % TEXTS.length] ?? ''
  const originals = base.harnesses ?? []
  const nameOf = (id: string, round: number, index: number) => `${id}-${round}${NAMES[index % NAMES.length]}`
  const names = new Map<string, string>()
  const harnesses = Array.from({ length: count }, (_, index) => {
    const round = Math.floor(index / originals.length)
    const harness = originals[index % originals.length] as Harness
    const id = nameOf(harness.id, round, index)
    names.set(`${round} ${harness.id}`, id)
    // The first round keeps its words, so that what is looked for can be found.
    const spoilt = round === 0 ? harness : spoil(harness, next)
    return { ...(round === 0 ? harness : variant(spoilt, index)), id }
  })
  const rounds = Math.ceil(count / originals.length)
  const installations = Array.from({ length: Math.ceil(rounds / 2) }, (_, half) => half * 2).flatMap(
    (round) =>
      (base.installations ?? []).flatMap((installation, index): Installation[] => {
        const looms = (installation.looms ?? []).map((use) => ({
          ...use,
          of: names.get(`${round} ${use.of}`),
        }))
        if (looms.some(({ of }) => of === undefined)) return []
        const id = nameOf(installation.id, round, index)
        return [{ ...(round === 0 ? installation : spoil(installation, next)), id, looms } as Installation]
      }),
  )
  return { ...base, harnesses, installations } as DocumentInput
}
