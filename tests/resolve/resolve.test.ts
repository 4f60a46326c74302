import { describe, expect, test } from 'vitest'
import { pickup } from '../solve/pickup.ts'
import { loomOf } from './shop-of.ts'

describe('a job resolved', () => {
  test('has a net, a circuit and an address for everything', () => {
    const loom = loomOf(pickup())
    expect(loom.findings).toEqual([])
  })
})
