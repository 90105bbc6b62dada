/** Milliseconds that a database may take to come up on a machine that is busy with other tests. */
export const HOOK_TIME = 120_000;
