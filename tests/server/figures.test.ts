/** The figures the lessons ask the server for: those of the shift that runs. */
import Fastify from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { expect, it } from 'vitest';
import { registerFigures } from '../../server/routes/figures.ts';
import { scenarioOf } from '../line/yard.ts';

const answered = async (name: string) => {
  const app = Fastify();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  registerFigures(app, { scenario: scenarioOf(name) });
  const response = await app.inject('/api/figures');
  await app.close();
  return { status: response.statusCode, body: response.json() };
};

it('tells sizes, flows, limits and the cutback mix of the running shift', async () => {
  const { status, body } = await answered('demo-day');
  expect(status).toBe(200);
  expect(body.figures).toMatchObject({
    plantName: 'Larkmoor Road Yard',
    dryer: { purgeVolumes: 5 },
    mix: { family: 'cutback' },
  });
});

it('tells of no mix where the shift makes no cutback', async () => {
  const { body } = await answered('cold-day');
  expect(body.figures.mix).toBeNull();
});
