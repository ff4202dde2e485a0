/** Codes of `errors[]` that are about the query, not the body. */
export const queryCodes = {
  'unknown-parameter': {
    title: 'Unknown query parameter',
    explanation: 'The call does not read a query parameter of that name; a misspelt one is never ignored.',
  },
  'unknown-format': {
    title: 'Unknown format',
    explanation: 'The call cannot answer in that form; the fault lists the formats there are.',
  },
  'missing-parameter': {
    title: 'Missing query parameter',
    explanation: 'The call cannot be answered without this query parameter; `accepted` says what it holds.',
  },
  'ambiguous-number': {
    title: 'Number that can be read in two ways',
    explanation:
      'With `decimal=comma` a mark could stand before decimals, between thousands or between two values; none is guessed.',
  },
} as const;
