import type { Resistor, ResistorRatings } from '../../circuit/model.js';
import type { StockPart } from './stock-part.js';

/**
 * A resistor with a part from the stock in its place: mounted in the way that the part's power is stated for, derated as the
 * part that it replaces. Of its mass, its voltage rating and what it stands for a short time only what the stock states is known.
 */
export function replaced(
  { thermal: _thermal, surroundings, ratings = {}, ...resistor }: Resistor,
  { resistance, power, voltage, overload }: StockPart,
): Resistor {
  const { powerFreeAir: _freeAir, voltage: _voltage, overload: _overload, ...derating } = ratings;
  const own: ResistorRatings = {
    ...derating,
    power,
    ...(voltage === undefined ? {} : { voltage }),
    ...(overload === undefined ? {} : { overload }),
  };
  const { measuredTemperature: _measured, ...around } = surroundings ?? {};
  return {
    ...resistor,
    resistance,
    mounting: 'as-rated',
    ratings: own,
    ...(surroundings === undefined ? {} : { surroundings: around }),
  };
}
