import type { Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { ComponentUse, Terminal } from './loom.ts'
import { listNames } from './problem.ts'

/** What the ends written in one harness or one unit of equipment may name. */
export interface EndScope {
  /** Words for messages: "harness pickup-head", "equipment mobile-40". */
  readonly owner: string
  /** Address of a thing in it for findings: `pickup-head/P1`. */
  readonly subject: (name: string) => string
  readonly halves: Map<string, DraftHalf>
  readonly components: Map<string, ComponentUse>
  readonly splices: Map<string, Terminal>
}

export interface EndUse {
  /** Who names it: "wire A02". */
  readonly by: string
  /** Address of the one who names it, for the finding. */
  readonly subject: string
  readonly at: Pointer
}

/** Pins of a half that wires can land on, the shell apart. */
export function plainPins(half: DraftHalf): Terminal[] {
  return [...half.pins.values()].filter((pin) => pin.name !== 'shell')
}

/**
 * The terminal an end names: "P1.2", "F1.in", "SP1", or the bare name of a one-pin connector.
 * Undefined with a finding where it leads nowhere.
 */
export function findEnd(b: GraphBuilder, scope: EndScope, text: string, use: EndUse): Terminal | undefined {
  const dot = text.indexOf('.')
  const head = dot < 0 ? text : text.slice(0, dot)
  const pin = dot < 0 ? undefined : text.slice(dot + 1)
  const half = scope.halves.get(head)
  if (half) return pin === undefined ? onlyPin(b, half, use) : pinOf(b, half, pin, scope, use)
  const component = scope.components.get(head)
  if (component) return componentTerminal(b, component, pin, use)
  const splice = scope.splices.get(head)
  if (splice) {
    if (pin === undefined) return splice
    b.report({
      rule: 'name-not-found',
      subject: use.subject,
      what: `${use.by} ends at ${quote(text)}, but ${head} is a splice and has no pins`,
      fix: `Write “${head}”.`,
      at: use.at,
    })
    return undefined
  }
  return unknownHead(b, scope, text, head, pin, use)
}

/** A longer list of names helps nobody to find the right one. */
const MOST_LISTED = 200

function unknownHead(
  b: GraphBuilder,
  scope: EndScope,
  text: string,
  head: string,
  pin: string | undefined,
  use: EndUse,
): undefined {
  const count = scope.halves.size + scope.components.size + scope.splices.size
  const names = () => [...scope.halves.keys(), ...scope.components.keys(), ...scope.splices.keys()]
  const hint = b.hint(head, names)
  b.report({
    rule: 'name-not-found',
    subject: use.subject,
    what: `${use.by} ends at ${quote(text)}, but ${scope.owner} has nothing called ${quote(head)}`,
    fix: hint
      ? `Correct the name.${hint}`
      : `Name a connector, component or splice it has${count <= MOST_LISTED ? `: ${listNames(names())}` : ''}.`,
    at: use.at,
  })
  return undefined
}

function onlyPin(b: GraphBuilder, half: DraftHalf, use: EndUse): Terminal | undefined {
  const pins = plainPins(half)
  if (pins.length === 1) return pins[0]
  if (pins.length === 0) return addPin(b, half, '1', use.at)
  b.report({
    rule: 'name-not-found',
    subject: use.subject,
    what: `${use.by} ends at connector ${half.id}, which has ${pins.length} pins, without saying which`,
    fix: `Write the pin too, such as “${half.id}.${pins[0]?.name ?? '1'}”. Its pins: ${listNames(half.pins.keys())}.`,
    at: use.at,
  })
  return undefined
}

function pinOf(
  b: GraphBuilder,
  half: DraftHalf,
  name: string,
  scope: EndScope,
  use: EndUse,
): Terminal | undefined {
  const pin = half.pins.get(name)
  if (pin) return pin
  if (name === '') return onlyPin(b, half, use)
  // Of an unknown family only the names are known, and names alone are enough for a drawing.
  if (!half.family) return addPin(b, half, name, use.at)
  const names = [...half.pins.keys()]
  b.report({
    rule: 'pin-exists',
    subject: use.subject,
    what: `${use.by} ends at ${half.id}.${name}, but ${half.id} (${half.familyId}) has no pin ${quote(name)}`,
    why:
      name === 'shell'
        ? `The family ${half.familyId} is described without a conductive shell.`
        : `${half.id} in ${scope.owner} is a ${half.familyId}, whose pins are ${listNames(names)}.`,
    fix: `Use one of ${half.id}'s pins, or correct its family.${b.hint(name, () => names)}`,
    at: use.at,
    marks: [half.address],
  })
  return undefined
}

/** Gives a half of unknown family a pin under the name it was called by. */
export function addPin(b: GraphBuilder, half: DraftHalf, name: string, at: Pointer): Terminal {
  const pin = b.terminal({ address: `${half.address}.${name}`, name, on: half.side, at, half })
  half.pins.set(name, pin)
  return pin
}

function componentTerminal(
  b: GraphBuilder,
  component: ComponentUse,
  name: string | undefined,
  use: EndUse,
): Terminal | undefined {
  const found = name === undefined ? undefined : component.terminals.get(name)
  if (found) return found
  const names = [...component.terminals.keys()]
  b.report({
    rule: 'name-not-found',
    subject: use.subject,
    what:
      name === undefined
        ? `${use.by} ends at ${component.id} without saying which of its terminals`
        : `${use.by} ends at ${component.id}.${name}, but a ${component.source.kind} has no terminal ${quote(name)}`,
    fix: `Write ${names.map((terminal) => `“${component.id}.${terminal}”`).join(' or ')}.`,
    at: use.at,
    marks: [component.address],
  })
  return undefined
}
