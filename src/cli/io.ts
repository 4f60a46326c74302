/** The world as a command sees it: tests hand in another. */
export interface Io {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  readonly progress: Progress
  readonly cwd: string
  /** Cells in a line of standard output. */
  readonly width: number
  /** Whether standard output and standard error may carry colour. */
  readonly colour: boolean
  readonly errColour: boolean
  /** Whether a fault of our own is shown with its stack: `LOOMWRIGHT_DEBUG=1`. */
  readonly debug: boolean
}

/** Says what is going on during long work; nothing of it is left when the work is done. */
export interface Progress {
  readonly say: (text: string) => void
  readonly done: () => void
}

interface Stream {
  readonly isTTY?: boolean
  readonly columns?: number
  write(text: string): unknown
}

/** Where output is not a terminal its width is unknown; logs and mails are read at about this width. */
const PIPE_WIDTH = 110
const NARROWEST = 40
const WIDEST = 120
/** A log gets a sign of life this often, in ms; a terminal gets one line that is written over. */
const LOG_EVERY_MS = 5000

function terminalProgress(stream: Stream): Progress {
  const width = () => Math.max(NARROWEST, stream.columns ?? 80) - 1
  return {
    say: (text) => stream.write(`\r\u001b[K${text.slice(0, width())}`),
    done: () => stream.write('\r\u001b[K'),
  }
}

function logProgress(stream: Stream): Progress {
  let last = performance.now()
  return {
    say: (text) => {
      if (performance.now() - last < LOG_EVERY_MS) return
      last = performance.now()
      stream.write(`${text}\n`)
    },
    done: () => undefined,
  }
}

const SILENT: Progress = { say: () => undefined, done: () => undefined }

/** The real world. `NO_COLOR` with any value turns colour off (no-color.org), and so does a pipe or a dumb terminal. */
export function processIo(out: Stream, err: Stream, env: NodeJS.ProcessEnv, cwd: string): Io {
  const coloured = (stream: Stream) => stream.isTTY === true && !env.NO_COLOR && env.TERM !== 'dumb'
  const rewritable = err.isTTY === true && env.TERM !== 'dumb'
  const width = out.isTTY ? (out.columns ?? 80) : PIPE_WIDTH
  return {
    out: (text) => void out.write(text),
    err: (text) => void err.write(text),
    progress: env.LOOMWRIGHT_QUIET === '1' ? SILENT : rewritable ? terminalProgress(err) : logProgress(err),
    cwd,
    width: Math.min(WIDEST, Math.max(NARROWEST, width)),
    colour: coloured(out),
    errColour: coloured(err),
    debug: env.LOOMWRIGHT_DEBUG === '1',
  }
}
