/** Why a bench gives no draft. */
export type DraftProblem = { readonly code: 'no-faults' } | { readonly code: 'nothing-tells' };
