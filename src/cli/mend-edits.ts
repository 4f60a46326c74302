import type { ValueChange } from '../base/finding.ts'
import { applyTextEdits, overlap, type TextEdit } from '../base/text-edit.ts'
import { valueAt } from '../check/mends/change-data.ts'
import type { Mended, MendPlan } from '../check/mends/plan-mends.ts'
import { editJson } from '../read/edit-json.ts'
import { editTypescript, type SourceEdit } from '../read/edit-typescript.ts'
import type { ShopSource, SourceDocument, SourceText } from '../read/shop-source.ts'

/** Edits of one file of the shop. */
export interface FileEdits {
  readonly source: SourceText
  readonly edits: readonly TextEdit[]
  readonly after: string
}

/** How the edits of a plan reach the files. */
export interface PlacedEdits {
  /** Applied in place. */
  readonly json: readonly FileEdits[]
  /** Printed as a patch: code is its author's. */
  readonly code: readonly FileEdits[]
  /** Mends whose values are not written out at a place of their own: said in words. */
  readonly inWords: readonly Mended[]
}

const startsWith = (path: readonly unknown[], start: readonly unknown[]): boolean =>
  start.length <= path.length && start.every((key, index) => key === path[index])

/** Whether a change of the whole plan has its part in an edit: an entry made new holds what later edits put into it. */
const partOf = (change: ValueChange, mended: Mended): boolean =>
  mended.edit.changes.some(
    ({ at }) =>
      at.doc === change.at.doc &&
      (startsWith(at.path, change.at.path) || startsWith(change.at.path, at.path)),
  )

class Placer {
  readonly #source: ShopSource
  readonly #plan: MendPlan
  readonly #documents: ReadonlyMap<string, SourceDocument>
  readonly #texts: ReadonlyMap<string, SourceText>
  readonly #byName: ReadonlyMap<string, SourceText>

  constructor(source: ShopSource, plan: MendPlan) {
    this.#source = source
    this.#plan = plan
    this.#documents = new Map(source.documents.map((document) => [document.name, document]))
    this.#texts = new Map(source.texts.map((text) => [text.file, text]))
    this.#byName = new Map(source.texts.map((text) => [text.name, text]))
  }

  #changesOf(mended: Mended): ValueChange[] {
    return this.#plan.changes.filter((change) => partOf(change, mended))
  }

  #isJson(mended: Mended): boolean {
    return mended.edit.changes.every(({ at }) => this.#byName.get(at.doc)?.kind === 'json')
  }

  #json(): FileEdits[] {
    const mends = this.#plan.mended.filter((mended) => this.#isJson(mended))
    const changes = new Set(mends.flatMap((mended) => this.#changesOf(mended)))
    return this.#source.texts.flatMap((source) => {
      const own = [...changes].filter(({ at }) => at.doc === source.name)
      if (source.kind !== 'json' || own.length === 0) return []
      const edits = editJson(
        source.text,
        own.map(({ at, value }) => ({ path: at.path, value })),
      )
      return edits && !overlap(edits) ? [{ source, edits, after: applyTextEdits(source.text, edits) }] : []
    })
  }

  /** Edits of code for one mend: all its values or none. */
  #inCode(mended: Mended): readonly SourceEdit[] | undefined {
    const changes = this.#changesOf(mended)
    const [first] = changes
    const document = first && this.#documents.get(first.at.doc)
    if (!document || changes.some(({ at }) => at.doc !== document.name)) return undefined
    const olds = changes.map(({ at }) => valueAt(document.data, at.path))
    return editTypescript(document, changes, olds, (file) => this.#texts.get(file)?.text)
  }

  place(): PlacedEdits {
    const taken: SourceEdit[] = []
    const inWords: Mended[] = []
    for (const mended of this.#plan.mended) {
      if (this.#isJson(mended)) continue
      const edits = this.#inCode(mended)
      const fresh = edits?.filter((edit) => !taken.some((other) => sameEdit(other, edit))) ?? []
      if (edits && !clash([...taken, ...fresh])) taken.push(...fresh)
      else inWords.push(mended)
    }
    const code = this.#source.texts.flatMap((source) => {
      const edits = taken.filter(({ file }) => file === source.file)
      return edits.length > 0 ? [{ source, edits, after: applyTextEdits(source.text, edits) }] : []
    })
    return { json: this.#json(), code, inWords }
  }
}

const sameEdit = (a: SourceEdit, b: SourceEdit): boolean =>
  a.file === b.file && a.start === b.start && a.end === b.end && a.text === b.text

function clash(edits: readonly SourceEdit[]): boolean {
  const files = new Set(edits.map(({ file }) => file))
  return [...files].some((file) => {
    const own = edits.filter((edit) => edit.file === file)
    const lonely = own.some(
      (edit) => edit.alone && own.some((other) => other !== edit && other.start === edit.start),
    )
    return lonely || overlap(own)
  })
}

/** Finds the places in the files for the edits of a plan. */
export const placeEdits = (source: ShopSource, plan: MendPlan): PlacedEdits =>
  new Placer(source, plan).place()
