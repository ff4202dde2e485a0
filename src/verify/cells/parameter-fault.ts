/** One thing wrong with a query: which parameter, what, and what would be accepted. */
export interface ParameterFault {
  readonly parameter: string;
  /** A whole sentence. */
  readonly detail: string;
  readonly code: string;
  readonly accepted?: string;
}

/** A query as it arrives: text, or a list of texts where a parameter is repeated. */
export type Query = Readonly<Record<string, unknown>>;

/** What stands before the decimals. */
export type Decimal = 'point' | 'comma';
