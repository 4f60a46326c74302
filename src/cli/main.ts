#!/usr/bin/env node
process.stderr.write('loomwright: the commands are not wired up yet\n')
process.exitCode = 2
