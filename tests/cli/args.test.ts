import { describe, expect, test } from 'vitest'
import { readArgs } from '../../src/cli/args.ts'
import { UsageError } from '../../src/cli/command.ts'
import { commands } from '../../src/cli/commands.ts'
import { commandHelp, mainHelp } from '../../src/cli/help.ts'

const named = (name: string) => commands.find((command) => command.name === name) ?? expect.fail(name)
const read = (line: string) => {
  const [name = '', ...rest] = line.split(' ')
  return readArgs(rest, named(name))
}
const refusal = (line: string): UsageError => {
  try {
    read(line)
  } catch (error) {
    if (error instanceof UsageError) return error
    throw error
  }
  return expect.fail(`${line} was accepted`)
}

describe('arguments', () => {
  test('options and paths in any order', () => {
    const args = read('check a --format json b.ts -l stop --output=r.json')
    expect(args.positionals).toEqual(['a', 'b.ts'])
    expect([args.text('format'), args.text('level'), args.text('output')]).toEqual(['json', 'stop', 'r.json'])
  })

  test('flags, short flags, and what is left out', () => {
    const args = read('build shop -w')
    expect([args.flag('watch'), args.flag('allow-stops'), args.text('to')]).toEqual([true, false, undefined])
  })

  test('after -- everything is a path', () => {
    expect(read('check -- --format').positionals).toEqual(['--format'])
  })

  test.each([
    ['check --formt json', /no option “--formt”/, '--format'],
    ['check --zzzzzzzz', /no option/, 'loomwright check --help lists what there is'],
    [
      'check --format xml',
      /cannot be “xml”: it is text, json, sarif, annotations/,
      'loomwright check --format text',
    ],
    ['check --format jsn', /cannot be “jsn”/, 'loomwright check --format json'],
    ['check --level', /needs a value/, 'write --level stop'],
    ['check --output --level stop', /--output needs a value/, 'write --output FILE'],
    ['check --level stop --level note', /given twice/, 'give it once'],
    ['build --watch=yes', /takes no value/, 'write --watch alone'],
    ['init', /needs FOLDER/, 'loomwright init FOLDER'],
    ['init a b', /does not take “b”/, 'loomwright init FOLDER'],
    ['explain a b', /does not take “b”/, 'loomwright explain [RULE]'],
    ['schema x', /does not take “x”/, 'loomwright schema'],
    ['check --__proto__', /no option/, 'loomwright check --help lists what there is'],
    ['check --constructor x', /no option/, 'loomwright check --help lists what there is'],
  ])('%s is refused, with what to type instead', (line, what, instead) => {
    const error = refusal(line)
    expect(error.message).toMatch(what)
    expect(error.instead).toBe(instead)
  })
})

describe('help', () => {
  test('lists every command with its summary', () => {
    const text = mainHelp(commands, '1.2.3')
    for (const { name, summary } of commands) expect(text).toContain(`${name.padEnd(9)}${summary}`)
  })

  test.each(commands.map((command) => [command.name, command] as const))(
    '%s fits 110 cells, and its own examples are accepted',
    (_, command) => {
      const text = commandHelp(command)
      for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(110)
      for (const [example] of command.examples) {
        expect(text).toContain(example)
        const [program, name, ...rest] = example.split(' ')
        expect([program, name]).toEqual(['loomwright', command.name])
        readArgs(rest, command)
      }
      for (const status of ['0', '1', '2']) expect(text).toMatch(new RegExp(`^  ${status}  `, 'm'))
    },
  )
})
