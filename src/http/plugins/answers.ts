import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { serialise } from '../json/serialise.js';

/** Every answer that is a value becomes text through the one serialiser, whatever schema its route has. */
export const answers = fp(
  (app: FastifyInstance, _options: object, done: () => void) => {
    app.setSerializerCompiler(() => serialise);
    app.setReplySerializer(serialise);
    done();
  },
  { name: 'answers' },
);
