// Runs before the tests: makes sure the outside programs they drive are there, or says in one line what to do.
import { spawnSync } from 'node:child_process'
import { findChromium, HOW_TO_GET_CHROMIUM, which } from './chromium.mjs'

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

function want(found, debianPackage, without, mayInstall = canInstall) {
  if (found()) return
  if (mayInstall) {
    process.stdout.write(`installing ${debianPackage} for the tests\n`)
    if (install(debianPackage) && found()) return
  }
  process.stderr.write(`${debianPackage} not found: ${without}\n`)
}

want(
  () => findChromium() !== undefined,
  'chromium',
  `the page tests will fail. ${HOW_TO_GET_CHROMIUM}`,
  // A CHROMIUM_PATH that points nowhere is a mistake to report; another browser would not cure it.
  canInstall && !process.env.CHROMIUM_PATH,
)
want(
  () => which('ngspice') !== undefined,
  'ngspice',
  'the solver is not compared with an independent simulator.',
)
want(() => which('pdftotext') !== undefined, 'poppler-utils', 'printed sheets are not read back.')
