import type { Command, OptionSpec } from './command.ts'
import { trustOptions } from './trust-of.ts'

const help: OptionSpec = { type: 'flag', short: 'h', help: 'print this' }
const to = (value: string, text: string): OptionSpec => ({ type: 'text', short: 'o', value, help: text })
const arranged: OptionSpec = {
  type: 'text',
  value: 'FILE',
  help: 'keep drawings as FILE (*.arranged.json) has them, and note there how they are now',
}
const MANY = Number.POSITIVE_INFINITY

const statuses = {
  0: 'it ran; nothing found is at stop level (warnings and notes do not count)',
  1: 'it ran; at least one finding is at stop level: do not build that',
  2: 'it could not run: bad usage, or files that cannot be read or written',
} as const
const plainStatuses = { ...statuses, 0: 'done', 1: 'not used' } as const

/** Every command, in the order of the help. Code is loaded only when a command runs. */
export const commands: readonly Command[] = [
  {
    name: 'check',
    summary: 'find what is wrong with a description before the first crimp',
    takes: '[FOLDER|FILE…]',
    count: [0, MANY],
    about: [
      'Reads descriptions (.ts, .json) and procedures (.md), works out every voltage, current and resistance',
      'they allow, and reports faults worst first: what, why, fix, and what was assumed. Ends with what could',
      'not be checked and which fact is missing. Without a folder it reads the current one. Writes nothing,',
      'unless --mend is given: then cures that leave no choice are tried, made, and the shop is checked again.',
    ],
    options: {
      format: {
        type: 'text',
        short: 'f',
        choices: ['text', 'json', 'sarif', 'annotations'],
        help: 'how to print the report; text when left out',
      },
      output: to('FILE', 'write the report to a file instead of the screen'),
      level: {
        type: 'text',
        short: 'l',
        choices: ['stop', 'warning', 'note'],
        help: 'the least level to print; note, which is everything, when left out',
      },
      baseline: {
        type: 'text',
        value: 'REVISION|FILE',
        help: 'only findings that REV, another folder or a JSON report has not',
      },
      'what-if': { type: 'flag', help: 'also try out swaps, lost grounds, pulled plugs, shorts, switches' },
      mend: { type: 'flag', help: 'make the certain changes: JSON in place, code as a patch' },
      'dry-run': { type: 'flag', help: 'with --mend: print it all as a patch, write nothing' },
      ...trustOptions,
      help,
    },
    examples: [
      ['loomwright check harnesses', 'check every description in the folder'],
      ['loomwright check harnesses/pickup.ts --level stop', 'print only what must not be built'],
      ['loomwright check harnesses --format sarif --output report.sarif', 'for code review and editors'],
      ['loomwright check harnesses --mend --dry-run', 'the certain cures, as a patch to read'],
    ],
    statuses,
    load: async () => (await import('./check-command.ts')).runCheck,
  },
  {
    name: 'compare',
    summary: 'say what changed between two revisions, by meaning',
    takes: 'OLD NEW|A..B',
    count: [1, 2],
    about: [
      'Each side is a folder, a file or a git revision; A..B names two revisions, A...B what B brings since the two',
      'parted. Tells which conductors moved, came and went, what else changed, which nets parted or joined, which',
      'findings are new, worse or cured, and what a loom already built must be reworked. Order, formatting and',
      'comments make no difference, and renamed things are known again. Nothing in the repository is touched.',
    ],
    options: {
      format: {
        type: 'text',
        short: 'f',
        choices: ['text', 'markdown', 'json', 'html', 'sarif', 'annotations', 'rework'],
        help: 'text when left out; html draws old over new',
      },
      output: to('FILE', 'write to a file instead of the screen'),
      in: {
        type: 'text',
        value: 'FOLDER',
        help: 'folder of the descriptions in each revision',
      },
      baseline: { type: 'flag', help: 'only the findings the change brings' },
      'run-code': {
        type: 'flag',
        help: 'run TypeScript of revisions not checked out',
      },
      ...trustOptions,
      help,
    },
    examples: [
      ['loomwright compare main..HEAD --in harnesses', 'what this branch changes'],
      ['loomwright compare HEAD harnesses', 'what is not committed yet'],
      ['loomwright compare main...HEAD --format markdown', 'for a pull request'],
      ['loomwright compare old.json new.json --format html --output review.html', 'a page to review from'],
    ],
    statuses: {
      0: 'it ran; the change brings no finding at stop level',
      1: 'it ran; the change brings a finding at stop level: do not build it',
      2: statuses[2],
    },
    load: async () => (await import('./compare-command.ts')).runCompare,
  },
  {
    name: 'build',
    summary: 'check, draw and publish a shop as pages',
    takes: '[FOLDER|FILE…]',
    count: [0, MANY],
    about: [
      'Checks the descriptions, draws them, makes sheets and install guides and publishes all of it as pages',
      'that open from disk. The folder is written whole or not at all: when anything fails, the last one stays.',
      'Findings do not keep pages from being published; they are marked on them, stops first of all.',
    ],
    options: {
      to: to('FOLDER', 'where to publish; out when left out'),
      watch: { type: 'flag', short: 'w', help: 'build again whenever a file changes' },
      history: {
        type: 'text',
        value: 'N',
        help: 'show what the last N commits changed in each harness, from git',
      },
      since: {
        type: 'text',
        value: 'REVISION|FOLDER',
        help: 'change sheets from there; with --history alone, from the last issue of each harness',
      },
      arranged,
      'allow-stops': { type: 'flag', help: 'exit 0 even with findings at stop level' },
      cache: {
        type: 'text',
        value: 'FOLDER',
        help: 'where work is kept; .loomwright-cache beside the output when left out',
      },
      'no-cache': { type: 'flag', help: 'keep nothing, and use nothing that was kept' },
      jobs: { type: 'text', value: 'N', help: 'threads that draw at once; as many as pay when left out' },
      shard: {
        type: 'text',
        value: 'K/N',
        help: 'draw only the K-th of N parts into the cache; publish nothing',
      },
      merge: {
        type: 'text',
        value: 'FOLDER',
        help: 'take in what all shards drew, from the folder that holds them',
      },
      ...trustOptions,
      help,
    },
    examples: [
      ['loomwright build harnesses', 'publish into the folder out'],
      ['loomwright build harnesses --since v1', 'with a change sheet for looms built to tag v1'],
      ['loomwright build --shard 2/5 --cache shards/2', 'one of five machines draws its part'],
      ['loomwright build --merge shards', 'publish from what all five drew'],
      ['loomwright build harnesses --to site --watch', 'publish into site and keep it up to date'],
    ],
    statuses,
    load: async () => (await import('./build-command.ts')).runBuild,
  },
  {
    name: 'draw',
    summary: 'draw one harness or installation, or all, as SVG or PDF',
    takes: '[FOLDER|FILE…]',
    count: [0, MANY],
    about: [
      'Writes wiring drawings as SVG files, with findings marked where they are. Instead of them: --face, both',
      'views of every connector; --formboard, each harness at true size in sheets to lay edge to edge, with an',
      'overview; --diagram, each installation with its zones and lengths. --pdf writes one vector file for each.',
    ],
    options: {
      harness: { type: 'text', value: 'NAME', help: 'draw only this harness' },
      installation: { type: 'text', value: 'NAME', help: 'draw only this installation' },
      face: { type: 'flag', help: 'draw connector faces: mating face and wire-entry face side by side' },
      formboard: { type: 'flag', help: 'draw formboards at true size, tiled, with an overview' },
      diagram: { type: 'flag', help: 'draw installation diagrams' },
      paper: {
        type: 'text',
        choices: ['a4', 'letter'],
        help: 'paper of the formboard sheets; a4 when left out',
      },
      pdf: { type: 'flag', help: 'write vector PDF at true scale instead of SVG, all sheets in one file' },
      arranged,
      to: to('FOLDER', 'where to write; drawings when left out'),
      ...trustOptions,
      help,
    },
    examples: [
      ['loomwright draw harnesses', 'every installation and harness, into the folder drawings'],
      ['loomwright draw harnesses --harness pickup-head --to out/head', 'one harness'],
      ['loomwright draw harnesses --installation pickup-17 --face', 'its connector faces'],
      ['loomwright draw harnesses --harness pickup-head --formboard --pdf', 'its formboard, ready to print'],
    ],
    statuses,
    load: async () => (await import('./draw-command.ts')).runDraw,
  },
  {
    name: 'explain',
    summary: 'say what a rule checks, why, and what to do',
    takes: '[RULE]',
    count: [0, 1],
    about: [
      'Prints a rule by its name as it stands in a finding. Without a name it lists every rule. With --all it',
      'lists every fault of the catalogue with the rules and questions that look for it, or why none does.',
    ],
    options: {
      all: { type: 'flag', short: 'a', help: 'every fault of the catalogue and what looks for it' },
      settings: { type: 'flag', help: 'every setting of the policy, its default and the reason' },
      format: {
        type: 'text',
        short: 'f',
        choices: ['text', 'json'],
        help: 'with --all or --settings; text when left out',
      },
      help,
    },
    examples: [
      ['loomwright explain fuse-near-source', 'one rule'],
      ['loomwright explain', 'all of them, by family'],
      ['loomwright explain --settings', 'what a shop can decide, and where guidance disagrees'],
      ['loomwright explain --all', 'the faults of the trade, and what looks for each'],
    ],
    statuses: plainStatuses,
    load: async () => (await import('./explain-command.ts')).runExplain,
  },
  {
    name: 'init',
    summary: 'write a small commented harness to start from',
    takes: 'FOLDER',
    count: [1, 1],
    about: [
      'Writes a five-wire lead in TypeScript, with comments, that passes the check. The folder may exist, but',
      'no file of yours is ever written over.',
    ],
    options: { help },
    examples: [['loomwright init my-shop', 'then: loomwright check my-shop']],
    statuses: plainStatuses,
    load: async () => (await import('./init-command.ts')).runInit,
  },
  {
    name: 'export',
    summary: 'print a shop as one JSON description',
    takes: '[FOLDER|FILE…]',
    count: [0, MANY],
    about: [
      'Gathers every description, TypeScript included, into one JSON document that reads back to the same',
      'shop. Procedures stay where they are, and harnesses keep naming them. Keep the result out of the folder',
      'it was made from, or everything in there is described twice.',
    ],
    options: {
      json: { type: 'flag', help: 'as JSON, which is the only format and need not be said' },
      to: to('FILE', 'write to a file instead of the screen'),
      ...trustOptions,
      help,
    },
    examples: [['loomwright export harnesses --json --to shop.json', 'one file for the whole shop']],
    statuses: plainStatuses,
    load: async () => (await import('./export-command.ts')).runExport,
  },
  {
    name: 'schema',
    summary: 'print the JSON Schema of a description, for editors',
    takes: '',
    count: [0, 0],
    about: ['Prints the JSON Schema (draft 2020-12) of description files, with a text for every field.'],
    options: {
      readings: { type: 'flag', help: 'of a file of readings instead' },
      to: to('FILE', 'write to a file instead of the screen'),
      help,
    },
    examples: [
      ['loomwright schema --to loomwright.schema.json', 'then set "$schema" in a description to it'],
    ],
    statuses: plainStatuses,
    load: async () => (await import('./schema-command.ts')).runSchema,
  },
]
