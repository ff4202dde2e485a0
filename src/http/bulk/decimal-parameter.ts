import { Type } from '@sinclair/typebox';
import { stringEnum } from '../../circuit/schema/string-enum.js';

export const DECIMALS = ['point', 'comma'] as const;

/** What stands before the decimals of numbers in a row's text. */
export const decimalParameter = Type.Optional(
  stringEnum(DECIMALS, {
    description: 'What stands before the decimals of numbers in cells; with `comma` a table is also answered so.',
  }),
);
