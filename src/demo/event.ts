/** The scenario: event, teams and cars are invented. Its cars stand in `openapi/examples` and in `event/`. */
export const event = {
  name: 'Hollow Lane Trial',
  note: 'an invented event with invented cars',
  ruleset: 'student-ev-2020',
} as const;
