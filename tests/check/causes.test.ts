import { describe, expect, test } from 'vitest'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import { circuitOf, onlySignals } from '../../src/check/queries/stray-supply.ts'
import { job } from '../demos/demo-shop.ts'
import { checkDocument, onlyLoom } from './check-document.ts'

const STRAY = ['one-standard-per-joint', 'volts-within-limit', 'fuse-in-feed']

describe('a supply where it has no business', () => {
  test('is one finding on the planned pickup, with the others as its notes', () => {
    const { findings, heldBack } = job('council-pickup-planned').result
    const about = (list: typeof findings) =>
      list
        .filter(({ rule, marks }) => STRAY.includes(rule) && marks.includes('main.A32'))
        .map(({ rule }) => rule)
    expect(about(findings)).toEqual(['one-standard-per-joint'])
    expect(about(heldBack).sort()).toEqual(['fuse-in-feed', 'volts-within-limit'])
    const shown = findings.find(({ rule }) => rule === 'one-standard-per-joint')
    expect(shown?.notes.map(({ text }) => text)).toEqual([
      expect.stringMatching(/^same cause: 14\.40 V on modem\.J1\.9 .*\(volts-within-limit\)$/),
      expect.stringMatching(/^same cause: No fuse in A32 .*\(fuse-in-feed\)$/),
    ])
  })

  const data = (more: 'lamp' | 'none') =>
    wired({
      units: {
        supply: cell(),
        modem: {
          pins: {
            '1': { kind: 'data', standard: 'ttl', line: 'RXD', direction: 'in', limit: '-0.3..5.5 V' },
            '2': { kind: 'signal-return' },
          },
        },
        ...(more === 'lamp' ? { lamp: load('1 A') } : {}),
      },
      splices: ['SP1'],
      runs: [
        ['supply.1', 'SP1'],
        ['SP1', 'modem.1'],
        ...(more === 'lamp'
          ? ([
              ['SP1', 'lamp.1'],
              ['lamp.2', 'supply.2'],
            ] as const)
          : []),
      ],
    })
  const shown = (more: 'lamp' | 'none') =>
    checkDocument(data(more)).findings.flatMap(({ rule }) => (STRAY.includes(rule) ? [rule] : []))

  test('takes the missing fuse along only where nothing that lives on the feed is fed', () => {
    expect(shown('none')).toEqual(['one-standard-per-joint'])
    // With a lamp on the same feed the wire stays, and so does the want of a fuse.
    expect(shown('lamp').sort()).toEqual(['fuse-in-feed', 'one-standard-per-joint'])
  })

  test('reaching nothing is not reaching signals only', () => {
    expect(onlySignals([])).toBe(false)
    const loom = onlyLoom(data('lamp'))
    const [pin] = loom.terminals
    expect(pin && circuitOf(loom, pin)?.terminals).toContain(pin)
  })
})
