import { timeFigure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { fallVoltage, slowTime, soundFacts, soundFalls } from '../sound-facts.js';

const lost = fallVoltage({ timeToLimit: timeFigure(null), timeToLimitOtherClock: timeFigure(null), path: [] });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'a resistor beyond the disconnect',
      facts: soundFacts({ falls: soundFalls({ 'disconnect-open': lost, 'all-separated': lost }) }),
      status: 'violated',
      message: 'violated',
      says: ['c-link in the state disconnect-open', 'c-link in the state all-separated'],
      elements: ['c-link'],
      remedySays: ['capacitor’s own terminals'],
    },
    {
      name: 'a resistor inside the container',
      facts: soundFacts({ falls: soundFalls({ 'container-removed': lost }) }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a resistor lost where another path still is quick enough',
      facts: soundFacts({ falls: soundFalls({ 'disconnect-open': fallVoltage({ path: ['r-bleed'] }) }) }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a resistor that is merely too large everywhere',
      facts: soundFacts({
        falls: soundFalls({ shutdown: fallVoltage(slowTime(9)), 'disconnect-open': fallVoltage(slowTime(9)) }),
      }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a resistor lost where tolerances decide about another path',
      facts: soundFacts({
        falls: soundFalls({
          'disconnect-open': fallVoltage({
            ...slowTime(4, { max: 6, stated: { min: 4, max: 4 }, bare: ['#/circuit/elements/9/resistance'] }),
            path: ['r-bleed'],
          }),
        }),
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/9/resistance'],
    },
    {
      name: 'no discharge to lose',
      facts: soundFacts({ topology: { dischargeResistors: [] } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['discharge-time', 'discharge-fail-safe'],
    },
  ],
};
