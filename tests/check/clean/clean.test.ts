import { describe, expect, it } from 'vitest'
import { checkDocument } from '../check-document.ts'
import { cleanLooms } from './looms.ts'

describe('a careful description', () => {
  it.each(Object.entries(cleanLooms))('of %s passes with notes at most', (_, data) => {
    const { findings } = checkDocument(data)
    const wrong = findings.filter(({ level }) => level !== 'note')
    expect(wrong.map(({ rule, subject, what }) => `${rule} ${subject}: ${what}`)).toEqual([])
  })
})
