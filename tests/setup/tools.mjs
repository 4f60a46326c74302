// Runs before the tests: makes sure the outside programs they drive are there, or says in one line what to do.
import { spawnSync } from 'node:child_process'
import { findChromium, which } from './chromium.mjs'

const canInstall = process.getuid?.() === 0 && which('apt-get') !== undefined
let refreshed = false

function install(debianPackage) {
  const options = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }
  if (!refreshed) spawnSync('apt-get', ['update', '-qq'], options)
  refreshed = true
  return (
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', debianPackage], options)
      .status === 0
  )
}

function want(found, debianPackage, without) {
  if (found()) return true
  if (canInstall) {
    process.stdout.write(`installing ${debianPackage} for the tests\n`)
    if (install(debianPackage) && found()) return true
  }
  process.stderr.write(`${debianPackage} not found: ${without}\n`)
  return false
}

const chromium = want(
  () => findChromium() !== undefined,
  'chromium',
  'the page tests need it. Install Chromium (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.',
)
want(
  () => which('ngspice') !== undefined,
  'ngspice',
  'the solver is not compared with an independent simulator.',
)
want(() => which('pdftotext') !== undefined, 'poppler-utils', 'printed sheets are not read back.')
if (!chromium) {
  process.stdout.write('0 passed, 1 failed\n')
  process.exitCode = 1
}
