/**
 * Milliseconds that a database may take to be made, come up and be filled on a machine that is busy with other tests. Longer than it is waited for by
 * itself, so that what is told is what did not come up.
 */
export const HOOK_TIME = 240_000;
