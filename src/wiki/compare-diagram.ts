import { naturalOrder } from '../base/natural-order.ts'
import type {
  DiagramBlock,
  DiagramLine,
  DiagramMark,
  DiagramModel,
} from '../draw/installation-diagram/diagram-model.ts'

const WORD: Readonly<Record<DiagramMark, string>> = { new: 'NEW', changed: 'CHANGED', was: 'REMOVED' }

const lineKey = ({ from, to, of, kind }: DiagramLine): string =>
  JSON.stringify([...[from, to].sort(naturalOrder), of, kind])

const sameBlock = (one: DiagramBlock, two: DiagramBlock): boolean =>
  one.title === two.title &&
  one.subtitle === two.subtitle &&
  one.zone === two.zone &&
  one.symbol === two.symbol

/** What a line says without the name of its loom, which stands there only beside other looms. */
function ownWords({ of, words, kind }: DiagramLine): string {
  // Two joined units are named by their key; their words would only tell of a renaming again.
  if (kind === 'mated') return ''
  const loom = `${of.split('.')[0]} `
  return words.map((word) => (word.startsWith(loom) ? word.slice(loom.length) : word)).join('\n')
}

const sameLine = (one: DiagramLine, two: DiagramLine): boolean => ownWords(one) === ownWords(two)

const markedBlock = (block: DiagramBlock, mark: DiagramMark): DiagramBlock => ({
  ...block,
  mark,
  title: `${block.title} ${WORD[mark]}`,
})

function markedLine(line: DiagramLine, mark: DiagramMark): DiagramLine {
  const [first = '', ...rest] = line.words
  return { ...line, mark, words: [`${WORD[mark]} ${first}`, ...rest] }
}

/**
 * Two states of an installation in one diagram; undefined where they show the same. `now` gives the present address of a former
 * one, so that what was only renamed is not drawn twice.
 */
export function overlayDiagram(
  before: DiagramModel,
  after: DiagramModel,
  now: (address: string) => string,
): DiagramModel | undefined {
  const oldBlocks = new Map(before.blocks.map((block) => [now(block.id), { ...block, id: now(block.id) }]))
  const oldLines = new Map(
    before.lines.map((line) => {
      const moved = {
        ...line,
        id: `was ${line.id}`,
        from: now(line.from),
        to: now(line.to),
        of: line.of.split(' on ').map(now).join(' on '),
      }
      return [lineKey(moved), moved] as const
    }),
  )
  const blockIds = new Set(after.blocks.map(({ id }) => id))
  const lineKeys = new Set(after.lines.map(lineKey))
  const blocks = [
    ...after.blocks.map((block) => {
      const old = oldBlocks.get(block.id)
      if (!old) return markedBlock(block, 'new')
      // A renamed unit is the same unit, and is said to have changed.
      return sameBlock(old, block) ? block : markedBlock(block, 'changed')
    }),
    ...[...oldBlocks.values()].filter(({ id }) => !blockIds.has(id)).map((one) => markedBlock(one, 'was')),
  ]
  const lines = [
    ...after.lines.map((line) => {
      const old = oldLines.get(lineKey(line))
      if (!old) return markedLine(line, 'new')
      return sameLine(old, line) ? line : markedLine(line, 'changed')
    }),
    ...[...oldLines].filter(([key]) => !lineKeys.has(key)).map(([, one]) => markedLine(one, 'was')),
  ]
  if ([...blocks, ...lines].every(({ mark }) => mark === undefined)) return undefined
  const zones = new Map([...before.zones, ...after.zones].map((zone) => [zone.id, zone]))
  return { blocks, lines, zones: [...zones.values()] }
}
