import type { Finding } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import { type AsBuilt, readAsBuilt } from './as-built.ts'
import { type Fault, faultsOf, shown } from './fault.ts'
import { holds } from './is-record.ts'
import { LIMITS } from './limits.ts'
import { READINGS_VERSION, type Readings, readings } from './readings.ts'
import { salvage } from './salvage.ts'
import { schemaOf } from './schema-path.ts'
import type { Sourced } from './shop.ts'
import type { RawDocument } from './validate.ts'

/** What a shop keeps of what it built and measured. */
export interface ShopRecords {
  readonly readings: readonly Sourced<Readings>[]
  readonly asBuilt: readonly Sourced<AsBuilt>[]
}

/** Records, what was wrong with their files, and how to find the written form of a value. */
export interface RecordsRead {
  readonly records: ShopRecords
  readonly findings: readonly Finding[]
  readonly written: (pointer: Pointer) => Pointer
}

type Path = readonly (string | number)[]

function finding(doc: string, path: Path, what: string, fix: string, cause: string): Finding {
  return {
    rule: 'record-shape',
    level: 'warning',
    subject: doc,
    what,
    why: 'What does not fit is left out of the record, and counts as not measured.',
    fix,
    assumed: [],
    facts: {},
    at: { doc, path },
    notes: [],
    cause: `record-shape ${doc} ${cause}`,
    marks: [],
  }
}

const ofFault = (doc: string, fault: Fault): Finding =>
  finding(doc, fault.path, fault.what, fault.fix, fault.cause)

interface Taken {
  readonly value?: Readings
  readonly findings: readonly Finding[]
  readonly written?: (path: Path) => (string | number)[]
}

function takeReadings({ name, data }: RawDocument): Taken {
  if (!holds(data, 'readings'))
    return {
      findings: [
        finding(
          name,
          [],
          `${shown(data)} does not say that it holds readings`,
          `Begin it with { "readings": ${READINGS_VERSION}, "installation": …, "asset": …, "date": … }.`,
          'version',
        ),
      ],
    }
  const read = readings.safeParse(data)
  if (read.success) return { value: read.data, findings: [] }
  const root = schemaOf(readings)
  const faults = read.error.issues.slice(0, LIMITS.faults).flatMap((issue) => faultsOf(root, data, issue))
  const saved = salvage(readings, data)
  return {
    findings: faults.map((fault) => ofFault(name, fault)),
    ...(saved ? { value: saved.value, written: saved.written } : {}),
  }
}

/** Reads records by their shape. Never throws, whatever the data; what is broken is a finding of rule `record-shape` and left out. */
export function readRecords(documents: readonly RawDocument[]): RecordsRead {
  const findings: Finding[] = []
  const kept: { readings: Sourced<Readings>[]; asBuilt: Sourced<AsBuilt>[] } = { readings: [], asBuilt: [] }
  const written = new Map<string, (path: Path) => (string | number)[]>()
  for (const document of documents) {
    const at = { doc: document.name, path: [] }
    if (holds(document.data, 'asBuilt')) {
      const read = readAsBuilt(document.data)
      if (read.ok) kept.asBuilt.push({ value: read.value.record, at })
      else findings.push(finding(document.name, [], read.problem, 'Download it again.', 'as-built'))
      continue
    }
    const taken = takeReadings(document)
    findings.push(...taken.findings)
    if (taken.value) kept.readings.push({ value: taken.value, at })
    if (taken.written) written.set(document.name, taken.written)
  }
  return {
    records: kept,
    findings,
    written: ({ doc, path }) => ({ doc, path: written.get(doc)?.(path) ?? path }),
  }
}
