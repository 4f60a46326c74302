import { below } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import type { GraphBuilder } from './graph-builder.ts'
import type { Conductor } from './loom.ts'
import { givenName, type Nets } from './make-nets.ts'

/**
 * Names given to nets, against the nets the metal makes: two names on one net, or one name on two nets of the same loom,
 * mean that something is joined that should not be, or open that should be joined.
 */
export function checkNets(b: GraphBuilder, made: Nets): void {
  const byName = new Map<string, Conductor>()
  const byNet = new Map<number, Conductor>()
  for (const conductor of b.conductors) {
    const name = givenName(conductor)
    const end = conductor.from ?? conductor.to
    if (name === undefined || !end) continue
    const net = made.netOf[end.index] ?? -1
    const sameNet = byNet.get(net)
    if (sameNet && givenName(sameNet) !== name) twoNames(b, conductor, sameNet)
    else byNet.set(net, conductor)
    const key = `${conductor.loom.id}\n${name}`
    const sameName = byName.get(key)
    const other = sameName?.from ?? sameName?.to
    if (sameName && other && made.netOf[other.index] !== net) twoNets(b, conductor, sameName, name)
    else byName.set(key, conductor)
  }
}

function twoNames(b: GraphBuilder, one: Conductor, two: Conductor): void {
  b.report({
    rule: 'contradiction',
    subject: `${b.loomId}/${one.address}`,
    what: `${one.id} is on net ${quote(givenName(one) ?? '')} and ${two.id} on net ${quote(givenName(two) ?? '')}, but they are joined`,
    why: 'Two nets that are meant to be apart are one piece of metal.',
    fix: 'Find the joint that should not be there, or give both the same net name.',
    at: below(one.at, 'net'),
    notes: [{ text: `${two.id} names the net`, at: below(two.at, 'net') }],
    marks: [one.address, two.address],
  })
}

function twoNets(b: GraphBuilder, one: Conductor, two: Conductor, name: string): void {
  b.report({
    rule: 'contradiction',
    subject: `${b.loomId}/${one.address}`,
    what: `${two.id} and ${one.id} are both on net ${quote(name)}, but nothing joins them`,
    why: 'A net is one piece of metal; these two are in separate pieces, so the circuit is open.',
    fix: 'Add the joint that is missing, or give one of them another net name.',
    at: below(one.at, 'net'),
    notes: [{ text: `${two.id} names the same net`, at: below(two.at, 'net') }],
    marks: [one.address, two.address],
  })
}
