import { describe, expect, it } from 'vitest';
import { showFigure } from '../../src/render/index.js';
import type { FigureAnswer } from '../../src/verify/index.js';

const figure: FigureAnswer = {
  unit: 'J',
  nominal: 26.8,
  min: 20,
  max: 30,
  bound: 'searched',
  gap: { min: null, max: 3 },
  at: { min: {}, max: {} },
};

describe('one end of a figure', () => {
  it('says what was found beside a bound well beyond it', () => {
    expect(showFigure(figure, 'max')).toBe('30 J at most (27 J found)');
    expect(showFigure({ ...figure, gap: { min: 2, max: 0 } }, 'min')).toBe('20 J at least (22 J found)');
  });

  it('is the number alone where nothing, or next to nothing, lies between', () => {
    expect(showFigure(figure, 'nominal')).toBe('26.8 J');
    expect(showFigure(figure, 'min')).toBe('20 J');
    expect(showFigure({ ...figure, gap: { min: null, max: 0.2 } }, 'max')).toBe('30 J');
  });
});
