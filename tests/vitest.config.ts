import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { ClosingLine } from './setup/closing-line.ts'

const root = fileURLToPath(new URL('..', import.meta.url))

export default defineConfig({
  root,
  resolve: {
    alias: { loomwright: fileURLToPath(new URL('../src/index.ts', import.meta.url)) },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    reporters: ['default', new ClosingLine()],
    passWithNoTests: false,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
})
