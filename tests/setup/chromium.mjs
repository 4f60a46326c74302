import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']
const MAC = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'

export const HOW_TO_GET_CHROMIUM =
  'Install Chromium (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.'

/** Where a command lives on PATH, or undefined. */
export function which(name) {
  try {
    return execFileSync('sh', ['-c', 'command -v "$1"', 'sh', name], { encoding: 'utf8' }).trim() || undefined
  } catch {
    return undefined
  }
}

/** The Chromium the page tests drive: CHROMIUM_PATH first, then the usual names on PATH; undefined when there is none. */
export function findChromium(env = process.env) {
  const named = env.CHROMIUM_PATH
  if (named) return existsSync(named) ? named : undefined
  for (const name of NAMES) {
    const found = which(name)
    if (found) return found
  }
  return existsSync(MAC) ? MAC : undefined
}

/** The same, for a test that cannot do without: throws what to do about it. */
export function needChromium(env = process.env) {
  const found = findChromium(env)
  if (found === undefined) throw new Error(`no Chromium found. ${HOW_TO_GET_CHROMIUM}`)
  return found
}
