import { expect, test } from 'vitest'
import { LazyMap } from '../../src/base/lazy-map.ts'

test('makes a value when it is first asked for, once, and none that is not asked for', () => {
  const made: string[] = []
  const maker = (name: string) => (): string => {
    made.push(name)
    return name.toUpperCase()
  }
  const map = new LazyMap(['a', 'b', 'c'].map((name) => [name, maker(name)] as const))
  expect([...map.keys()]).toEqual(['a', 'b', 'c'])
  expect([map.size, map.has('b'), map.has('d'), map.get('d')]).toEqual([3, true, false, undefined])
  expect(made).toEqual([])
  expect([map.get('b'), map.get('b')]).toEqual(['B', 'B'])
  expect(made).toEqual(['b'])
  expect([...map]).toEqual([
    ['a', 'A'],
    ['b', 'B'],
    ['c', 'C'],
  ])
  expect([...map.values()]).toEqual(['A', 'B', 'C'])
  expect(made).toEqual(['b', 'a', 'c'])
})

test('of a key given twice the last counts, as in any map', () => {
  const map = new LazyMap([
    ['a', () => 1],
    ['a', () => 2],
  ])
  expect([...map]).toEqual([['a', 2]])
})
