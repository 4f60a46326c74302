import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Component } from '../describe/component.ts'
import { terminalsOf } from '../describe/component-terminals.ts'
import { operatingStates } from '../describe/function.ts'
import { type EndScope, findEnd } from './find-end.ts'
import type { GraphBuilder } from './graph-builder.ts'
import type { ComponentUse, LoomUse, Unit } from './loom.ts'

/** Gives a component its terminals, and checks the names it uses. Its links are made once all ends are known. */
export function resolveComponent(
  b: GraphBuilder,
  source: Component,
  at: Pointer,
  home: { unit?: Unit; loom?: LoomUse },
): ComponentUse {
  const owner = home.unit?.id ?? home.loom?.id ?? ''
  const subject = `${home.unit?.equipment.id ?? home.loom?.harness.id}/${source.id}`
  const fusePart =
    source.kind === 'fuse' && source.part !== undefined ? b.parts.fuses.get(source.part) : undefined
  if (source.kind === 'fuse' && source.part !== undefined && !fusePart)
    b.report({
      rule: 'name-not-found',
      level: 'warning',
      subject,
      what: `${source.id} is the fuse ${quote(source.part)}, which no part describes`,
      fix: didYouMean(source.part, b.parts.fuses.keys()).trim() || 'Describe it as a part of kind "fuse".',
      at: below(at, 'part'),
    })
  if (source.kind === 'fuse' && source.rating !== undefined && fusePart && fusePart.rating !== source.rating)
    b.report({
      rule: 'contradiction',
      subject,
      what: `${source.id} is rated ${source.rating} A, but its part ${fusePart.id} is a ${fusePart.rating} A fuse`,
      fix: 'Give the rating or the part, or make them agree.',
      at: below(at, 'rating'),
      facts: {
        rating: { value: source.rating, unit: 'A' },
        partRating: { value: fusePart.rating, unit: 'A' },
      },
    })
  checkStates(b, source, at, subject)
  return b.component(
    {
      address: `${owner}.${source.id}`,
      id: source.id,
      source,
      at,
      ...home,
      ...(fusePart ? { fusePart } : {}),
    },
    terminalsOf[source.kind],
  )
}

function checkStates(b: GraphBuilder, source: Component, at: Pointer, subject: string): void {
  if (source.kind === 'switch') checkStateNames(b, source.closed, below(at, 'closed'), subject, 'is closed')
  if (source.kind === 'relay') checkStateNames(b, source.pulled, below(at, 'pulled'), subject, 'is pulled in')
}

function checkStateNames(
  b: GraphBuilder,
  names: readonly string[] | undefined,
  at: Pointer,
  subject: string,
  does: string,
): void {
  names?.forEach((name, index) => {
    checkStateName(b, name, { at: below(at, index), subject, words: `${subject.split('/')[1]} ${does}` })
  })
}

/** A state named by equipment need not be one of this job's, but it has to be one of the conventional ones then. */
export function checkStateName(
  b: GraphBuilder,
  name: string,
  use: { at: Pointer; subject: string; words: string },
): void {
  const known = [...b.states.flatMap((state) => [state.id, state.load]), ...operatingStates]
  if (known.includes(name)) return
  b.report({
    rule: 'name-not-found',
    level: 'warning',
    subject: use.subject,
    what: `${use.words} in the state ${quote(name)}, which ${b.loomId} does not have`,
    why: `The states of ${b.loomId} are ${b.states.map((state) => state.id).join(', ')}. A figure for a state that never comes is never used.`,
    fix: didYouMean(name, known).trim() || 'Name a state of the installation, or add it to its states.',
    at: use.at,
  })
}

/** Joins the terminals of a component to the pins its `between` names. */
export function joinBetween(b: GraphBuilder, component: ComponentUse, scope: EndScope): void {
  for (const [name, end] of Object.entries(component.source.between ?? {})) {
    const at = below(component.at, 'between', name)
    const terminal = component.terminals.get(name)
    const subject = scope.subject(component.id)
    if (!terminal) {
      const names = [...component.terminals.keys()]
      b.report({
        rule: 'name-not-found',
        subject,
        what: `${component.id} joins a terminal ${quote(name)}, but a ${component.source.kind} has ${names.join(', ')}`,
        fix: `Use one of ${names.join(', ')}.${didYouMean(name, names)}`,
        at,
      })
      continue
    }
    const pin = findEnd(b, scope, end, { by: `${component.id} terminal ${name}`, subject, at })
    if (pin === terminal)
      b.report({
        rule: 'contradiction',
        subject,
        what: `Terminal ${name} of ${component.id} is joined to itself`,
        fix: 'Name the pin it is joined to.',
        at,
      })
    else if (pin) b.link({ kind: 'join', a: terminal, b: pin, component, ohms: 0 })
  }
}
