import { describe, expect, test } from 'vitest'
import { type Io, processIo } from '../../src/cli/io.ts'
import { showFailure } from '../../src/cli/show-failure.ts'
import { Unreadable } from '../../src/cli/unreadable.ts'
import { WriteError } from '../../src/write/write-error.ts'

function stream(isTTY: boolean, columns?: number) {
  const written: string[] = []
  return { isTTY, ...(columns ? { columns } : {}), written, write: (text: string) => written.push(text) }
}
const io = (isTTY: boolean, env: NodeJS.ProcessEnv = {}, columns?: number): Io =>
  processIo(stream(isTTY, columns), stream(isTTY), env, '.')

describe('colour and width', () => {
  test.each([
    ['a terminal', true, {}, true],
    ['a pipe', false, {}, false],
    ['NO_COLOR', true, { NO_COLOR: '1' }, false],
    ['an empty NO_COLOR, which counts as unset', true, { NO_COLOR: '' }, true],
    ['a terminal that knows no escapes', true, { TERM: 'dumb' }, false],
  ])('%s', (_, isTTY, env, colour) => {
    expect(io(isTTY, env).colour).toBe(colour)
    expect(io(isTTY, env).errColour).toBe(colour)
  })

  test.each([
    [true, 80, 80],
    [true, 12, 40],
    [true, 400, 120],
    [false, undefined, 110],
  ])('terminal %s with %s columns prints %s wide', (isTTY, columns, width) => {
    expect(io(isTTY, {}, columns).width).toBe(width)
  })
})

describe('progress', () => {
  test('on a terminal is one line, written over and gone at the end', () => {
    const err = stream(true, 60)
    const { progress } = processIo(stream(true), err, {}, '.')
    progress.say('drawing 1 of 2')
    progress.say('x'.repeat(500))
    progress.done()
    expect(err.written.join('')).not.toContain('\n')
    expect(err.written.at(-1)).toBe('\r\u001b[K')
    expect(Math.max(...err.written.map((text) => text.length))).toBeLessThan(70)
  })

  test('says nothing where it is not wanted, not even on a terminal', () => {
    const err = stream(true)
    const { progress } = processIo(stream(true), err, { LOOMWRIGHT_QUIET: '1' }, '.')
    progress.say('drawing 1 of 2')
    progress.done()
    expect(err.written).toEqual([])
  })

  test('in a log is nothing while work is short', () => {
    const err = stream(false)
    const { progress } = processIo(stream(false), err, {}, '.')
    progress.say('drawing 1 of 2')
    progress.done()
    expect(err.written).toEqual([])
  })
})

describe('failures', () => {
  const at = io(false)
  test('our own are told as such in one line, with the way to more', async () => {
    const text = await showFailure(new TypeError('x is\u001b[31m undefined'), at)
    expect(text).toBe(
      'loomwright: this is a fault of loomwright, not of your files: x is undefined\n  LOOMWRIGHT_DEBUG=1 before the command shows where.\n',
    )
    expect(await showFailure(new TypeError('x'), io(false, { LOOMWRIGHT_DEBUG: '1' }))).toMatch(
      /\n\s+at .*io\.test/,
    )
    expect(await showFailure('a string', at)).toMatch(/not of your files: a string\n/)
  })

  test('of writing carry their cure', async () => {
    const text = await showFailure(
      new WriteError('cannot write out: the disk is full', 'free some space'),
      at,
    )
    expect(text).toBe('loomwright: cannot write out: the disk is full\n  Fix: free some space\n')
  })

  test('of reading are told at their places', async () => {
    const place = { file: 'a.json', line: 2, column: 1 }
    const error = new Unreadable([{ what: 'oops', fix: 'mend', place }], { sourceLine: () => 'x', watch: [] })
    expect(await showFailure(error, at)).toBe('a.json:2:1: oops\n  2 │ x\n      ^\n  Fix: mend\n')
  })
})
