const SEVERITY = { met: 0, undetermined: 1, violated: 2 } as const;

type Status = keyof typeof SEVERITY;

/** Order of judgements: violated before undetermined before met. */
export function worstFirst(a: { readonly status: Status }, b: { readonly status: Status }): number {
  return SEVERITY[b.status] - SEVERITY[a.status];
}
