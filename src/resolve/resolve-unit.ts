import { below, type Pointer } from '../base/place.ts'
import type { Equipment } from '../describe/equipment.ts'
import { type EndScope, findEnd } from './find-end.ts'
import type { DraftHalf, GraphBuilder } from './graph-builder.ts'
import type { ComponentUse, Half, Terminal, Unit } from './loom.ts'
import { checkStateName, joinBetween, resolveComponent } from './resolve-component.ts'
import { resolveEquipmentHalf } from './resolve-half.ts'

export interface UnitPlace {
  readonly id: string
  readonly title?: string
  readonly zone?: string
  readonly standIn: boolean
  /** Where the unit is listed. */
  readonly at: Pointer
}

/** Puts one unit of equipment in its place: its halves, what is inside it, and what it joins. */
export function resolveUnit(b: GraphBuilder, type: Equipment, typeAt: Pointer, place: UnitPlace): Unit {
  const halves: Half[] = []
  const unit: Unit = {
    id: place.id,
    equipment: type,
    title: place.title ?? type.title,
    halves,
    standIn: place.standIn,
    at: place.at,
    ...(place.zone === undefined ? {} : { zone: place.zone }),
  }
  b.units.push(unit)
  const byId = new Map<string, DraftHalf>()
  type.connectors.forEach((connector, index) => {
    const at = below(typeAt, 'connectors', index)
    if (byId.has(connector.id)) {
      duplicate(b, type, connector.id, 'connectors', below(at, 'id'))
      return
    }
    const half = resolveEquipmentHalf(b, unit, connector, at)
    byId.set(connector.id, half)
    halves.push(half)
  })
  const scope: EndScope = {
    owner: `equipment ${type.id}`,
    subject: (name) => `${type.id}/${name}`,
    halves: byId,
    components: new Map(),
    splices: new Map(),
  }
  resolveInside(b, unit, typeAt, scope)
  joinPins(b, type, typeAt, scope)
  checkPins(b, type, scope)
  return unit
}

function duplicate(b: GraphBuilder, type: Equipment, id: string, what: string, at: Pointer): void {
  b.report({
    rule: 'duplicate-name',
    level: 'stop',
    subject: `${type.id}/${id}`,
    what: `Equipment ${type.id} has two ${what} called ${id}; the first counts`,
    fix: 'Rename one of them.',
    at,
  })
}

function resolveInside(b: GraphBuilder, unit: Unit, typeAt: Pointer, scope: EndScope): void {
  const made: ComponentUse[] = []
  const inside = unit.equipment.inside ?? []
  inside.forEach((source, index) => {
    const at = below(typeAt, 'inside', index)
    if (scope.components.has(source.id) || scope.halves.has(source.id)) {
      duplicate(b, unit.equipment, source.id, 'things', below(at, 'id'))
      return
    }
    const component = resolveComponent(b, source, at, { unit })
    scope.components.set(source.id, component)
    made.push(component)
  })
  for (const component of made) joinBetween(b, component, scope)
}

/** A join of several pins is a star from the first. */
function joinPins(b: GraphBuilder, type: Equipment, typeAt: Pointer, scope: EndScope): void {
  const joined = new Set<Terminal>()
  type.joins?.forEach((join, index) => {
    const ends = join.pins.map((text, pin) =>
      end(b, scope, text, 'A join', below(typeAt, 'joins', index, 'pins', pin)),
    )
    const first = ends.find((pin) => pin !== undefined)
    for (const pin of ends) {
      if (!pin) continue
      joined.add(pin)
      if (first && pin !== first)
        b.link({
          kind: 'join',
          a: first,
          b: pin,
          ...(join.resistance === undefined ? {} : { ohms: join.resistance }),
        })
    }
  })
  type.isolates?.forEach((isolation, index) => {
    isolation.pins.forEach((text, pin) => {
      const at = below(typeAt, 'isolates', index, 'pins', pin)
      const terminal = end(b, scope, text, 'An isolation', at)
      if (terminal && joined.has(terminal))
        b.report({
          rule: 'contradiction',
          subject: scope.subject(text),
          what: `Equipment ${type.id} says that pin ${text} is joined inside and also isolated inside`,
          fix: 'Keep the one that was measured.',
          at,
          marks: [terminal.address],
        })
    })
  })
}

function end(b: GraphBuilder, scope: EndScope, text: string, by: string, at: Pointer): Terminal | undefined {
  return findEnd(b, scope, text, { by: `${by} of ${scope.owner}`, subject: scope.subject(text), at })
}

/** Names that pins use: the sense pin a load wakes by, and the states it states currents for. */
function checkPins(b: GraphBuilder, type: Equipment, scope: EndScope): void {
  for (const half of scope.halves.values())
    for (const pin of half.pins.values()) {
      const { does } = pin
      if (does.kind !== 'supply-in') continue
      const subject = scope.subject(`${half.id}.${pin.name}`)
      if (does.awake !== undefined)
        findEnd(b, scope, does.awake, {
          by: `What wakes ${half.id}.${pin.name}`,
          subject,
          at: below(pin.at, 'awake'),
        })
      for (const key of ['amps', 'watts'] as const) {
        const figure = does[key]
        if (typeof figure !== 'object') continue
        for (const state of Object.keys(figure))
          checkStateName(b, state, {
            at: below(pin.at, key, state),
            subject,
            words: `${type.id} ${half.id}.${pin.name} states a figure`,
          })
      }
    }
}
