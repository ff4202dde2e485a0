/** The scenario: event, teams and cars are invented. Its submissions are the files in `openapi/examples`. */
export const event = { name: 'Hollow Lane Trial', note: 'an invented event with invented cars' } as const;
