/**
 * How TypeScript is taken. JSON and procedures are data always.
 *
 * `own`: run in this process, as any program one starts is. `refuse`: a stranger's, not run at all. `apart`: a stranger's, run
 * in an interpreter that has no files, no processes and no network.
 */
export type Trust = 'own' | 'refuse' | 'apart'
