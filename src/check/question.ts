import type { Fact, Level } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import type { DocumentInput } from '../describe/document.ts'
import type { Family, RuleContext } from './rule.ts'

/** When in the work a question bites: the phases of the install guide by their ids. */
export type Moment = 'prepare' | 'isolate' | 'open-up' | 'mount' | 'antenna' | 'route' | 'signals' | 'supply'

/** One place where a question is put. */
export interface Asking {
  /** Address of a thing, or a zone; what an answer names under `at`. */
  readonly subject: string
  /** The question as it stands there, answered with yes when all is well. */
  readonly text: string
  /** Why it is put there, in figures. */
  readonly why: string
  readonly at: Pointer
  readonly facts?: Readonly<Record<string, Fact>>
  readonly marks?: readonly string[]
  /** An answer of yes has to give a distance, of at least this many millimetres where the maker states one. */
  readonly distance?: { readonly leastMm?: number }
}

/** What only a look can tell: asked where the job touches it, printed where it bites, and answered in the installation. */
export interface Question {
  readonly id: string
  readonly title: string
  readonly family: Family
  /** Of a finding when the answer is no. */
  readonly level: Level
  readonly covers: readonly string[]
  /** The question in plain words; yes is as it should be. */
  readonly text: string
  readonly moment: Moment
  readonly reason: string
  readonly remedy: string
  /** What of the job makes it apply. */
  readonly applies: string
  readonly sources: readonly string[]
  /** A description whose answer is no, and one whose answer is yes. */
  readonly examples: { readonly trips: DocumentInput; readonly passes: DocumentInput }
  readonly asked: (context: RuleContext) => Iterable<Asking>
}
