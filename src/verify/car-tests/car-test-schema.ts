import { type Static, Type } from '@sinclair/typebox';

const open = { additionalProperties: true };
const end = (description: string) => Type.Unsafe<number | null>({ type: ['number', 'null'], description });

export const CarTestSchema = Type.Object(
  {
    id: Type.String({ description: 'Stable: the same test has the same id on every car.' }),
    state: Type.String({ description: 'The state the car has to be in.' }),
    action: Type.String({ description: 'What is done, in sentences.' }),
    measure: Type.String({ description: 'What is read, and where.' }),
    unit: Type.String({ description: 'Of `expect`: SI, or what is counted.' }),
    expect: Type.Object({ min: end('null: no lower end.'), max: end('null: no upper end.') }, open),
    otherwise: Type.Array(
      Type.Object(
        {
          reading: Type.String({ description: 'Another reading than the one expected.' }),
          means: Type.String({ description: 'What it tells, and what to do.' }),
        },
        open,
      ),
    ),
  },
  {
    $id: 'CarTest',
    ...open,
    description: 'What to measure on the real car, what to expect by its paper, and what another reading means.',
  },
);
export type CarTest = Static<typeof CarTestSchema>;
