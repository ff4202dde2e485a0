import type { Report } from '../../verify/report.js';
import { showFigure } from '../show-figure.js';
import { codeSpan } from './code-span.js';
import { markdownTable } from './markdown-table.js';
import { stateName } from './state-name.js';

type Discharge = Report['discharge'][number];

/** The fall in every separation state: time to the limit, voltage when the time is up, and by which parts it discharges. */
export function dischargeSection(discharge: readonly Discharge[]): string[] {
  if (discharge.length === 0) return [];
  const columns = [
    { title: 'State' },
    { title: 'starts at, at most', align: 'right' },
    { title: 'time, nominal', align: 'right' },
    { title: 'time, longest', align: 'right' },
    { title: 'left at the time limit, at most', align: 'right' },
    { title: 'in time' },
    { title: 'discharges through' },
  ] as const;
  const rows = discharge.map((state) => [
    `${stateName(state)}${state.required ? '' : ' (not asked for)'}`,
    showFigure(state.startVoltage, 'max'),
    state.timeToLimit === undefined ? '–' : showFigure(state.timeToLimit, 'nominal'),
    state.timeToLimit === undefined ? '–' : showFigure(state.timeToLimit, 'max'),
    state.voltageAtLimit === undefined ? '–' : showFigure(state.voltageAtLimit, 'max'),
    state.satisfied === null ? 'undetermined' : state.satisfied ? 'yes' : 'no',
    state.path.length > 0 ? state.path.map(codeSpan).join(', ') : 'nothing',
  ]);
  return ['## Discharge', markdownTable(columns, rows), ...heat(discharge)];
}

/** What each discharge resistor has to stand, from the state that asks the most. */
function heat(discharge: readonly Discharge[]): string[] {
  const most = new Map<string, { energy: string; power: string; watts: number }>();
  for (const { continuousPower, resistorEnergy } of discharge) {
    for (const power of continuousPower) {
      const watts = power.max ?? Number.POSITIVE_INFINITY;
      if (watts <= (most.get(power.element)?.watts ?? Number.NEGATIVE_INFINITY)) continue;
      const energy = resistorEnergy.find(({ element }) => element === power.element);
      most.set(power.element, {
        energy: energy === undefined ? '–' : showFigure(energy, 'max'),
        power: showFigure(power, 'max'),
        watts,
      });
    }
  }
  if (most.size === 0) return [];
  const columns = [
    { title: 'Resistor' },
    { title: 'power with the highest voltage held, at most', align: 'right' },
    { title: 'energy of one fall, at most', align: 'right' },
  ] as const;
  return [
    markdownTable(
      columns,
      Array.from(most, ([id, { power, energy }]) => [codeSpan(id), power, energy]),
    ),
  ];
}
