import { colourLabel } from '../base/colour.ts'
import type { Half, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { lengthText, pinName, sizeText } from '../sheets/names.ts'
import type { PathStep } from './path-steps.ts'

/** `radio J1` on a unit; a half of the loom at hand by its own name, one of another loom with the loom's before it. */
function halfWords(loom: Loom, half: Half, own: LoomUse | undefined): string {
  if (half.unit) return `${half.unit.id} ${half.id}`
  const alone = half.loom === own || loom.looms.length === 1
  return alone || !half.loom ? half.id : `${half.loom.id} ${half.id}`
}

/** `radio J1/P1 pin 3 (SPK+)`: contacts that touch each other in one breath. */
function contactWords(loom: Loom, terminals: readonly Terminal[], own: LoomUse | undefined): string {
  const onHalves = terminals.filter((terminal) => terminal.half)
  const [first] = onHalves
  if (!first?.half) return terminals.map(partWords).join('/')
  const named = onHalves.map((t) => (t.half ? halfWords(loom, t.half, own) : ''))
  const same = onHalves.every((t) => t.name === first.name)
  const single = onHalves.every((t) => t.half?.pins.size === 1)
  const halves = single
    ? named.join('/')
    : same
      ? `${named.join('/')} pin ${first.name}`
      : onHalves
          .map((t, i) => `${named[i] ?? ''}${t.half?.pins.size === 1 ? '' : ` pin ${t.name}`}`)
          .join('/')
  const said = onHalves.find((t) => t.on === 'equipment' && t.does.name) ?? onHalves.find((t) => t.does.name)
  return said?.does.name === undefined ? halves : `${halves} (${said.does.name})`
}

/** `K1-30, relay`, or the name of a splice. */
function partWords(terminal: Terminal): string {
  const { component } = terminal
  return component ? `${pinName(terminal)}, ${component.source.kind}` : `${terminal.name} splice`
}

/** One step as the trail says it; nothing where the fuse or bond beside it says it already. */
export function pathWords(loom: Loom, step: PathStep, own: LoomUse | undefined, goesOn: boolean): string {
  if (step.kind === 'pins') {
    const kinds = step.terminals.map((terminal) => terminal.component?.source.kind)
    if (goesOn && kinds.every((kind) => kind === 'fuse' || kind === 'link')) return ''
    return contactWords(loom, step.terminals, own)
  }
  if (step.kind === 'through') {
    const { component, link } = step
    if (component) return `through ${component.source.kind} ${component.id}`
    return `joined inside ${link.a.half?.unit?.id ?? link.a.address}`
  }
  const { conductor, back } = step
  const facts = [
    conductor.loom === own || loom.looms.length === 1 ? conductor.id : `${conductor.loom.id} ${conductor.id}`,
    conductor.colour ? colourLabel(conductor.colour) : '',
    sizeText(conductor.size),
    lengthText(loom, conductor.lengthMm),
    conductor.from && conductor.to ? '' : conductor.kind === 'shield' ? 'cut back' : 'one end leads nowhere',
    back ? `back to ${contactWords(loom, [back], own)}` : '',
  ]
  return facts.filter((fact) => fact !== '').join(' · ')
}
