import { Chance } from './chance.ts'
import { demosIn, makeCase, readCorpus } from './corpus.ts'
import { runCase } from './run-case.ts'

/*
 * One process of the longer run: `worker TOP FROM TO STEP DRAW`. Tells its parent before each case which it is, and after it how it
 * went, so that a case that never ends is known by its number.
 */

const [top = '.', from = '0', to = '0', step = '1', draw = 'no'] = process.argv.slice(2)
const corpus = await readCorpus(demosIn(top))
const send = (message: object): void => void process.send?.(message)

for (let seed = Number(from); seed < Number(to); seed += Number(step)) {
  send({ begun: seed })
  const made = makeCase(corpus, new Chance(seed), draw === 'yes')
  const start = performance.now()
  try {
    const reached = await runCase(made, draw === 'yes')
    send({ seed, reached, ms: performance.now() - start })
  } catch (error) {
    const stack = error instanceof Error ? String(error.stack) : String(error)
    send({ seed, fault: stack.split('\n').slice(0, 6).join('\n'), ms: performance.now() - start })
  }
}
process.disconnect?.()
