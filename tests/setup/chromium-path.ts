import { findChromium } from './chromium.mjs'

// Page tests read CHROMIUM_PATH only, so that where a browser may live is written down once.
const found = findChromium()
if (found !== undefined) process.env['CHROMIUM_PATH'] = found
