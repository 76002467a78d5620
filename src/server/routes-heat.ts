import {
  forceAnswerSchema,
  forceQuestionSchema,
  heatCurveSchema,
  heatLookSchema,
  heatQuestionSchema,
  heatStackSchema,
} from '#contract';
import type { Shop } from '#shop';
import { type App, failures } from './context.js';

/** Questions to the model of heat and of force. */
export function heatRoutes(app: App, shop: Shop): void {
  app.post(
    '/api/heat',
    {
      schema: {
        summary: 'How heat goes through a blank in a press',
        description:
          'Courses of temperature with their bands, facts and sentences. Left out: the blank’s own recipe.',
        tags: ['press'],
        body: heatQuestionSchema,
        response: { 200: heatLookSchema, ...failures },
      },
    },
    (request) => shop.heatDesk.look(request.body),
  );
  app.post(
    '/api/heat/stack',
    {
      schema: {
        summary: 'How heat goes through any stack',
        description: 'Layers, platens and phases in; temperatures, dose and the account of energy out.',
        tags: ['press'],
        body: heatStackSchema,
        response: { 200: heatCurveSchema, ...failures },
      },
    },
    (request) => shop.heatDesk.run(request.body),
  );
  app.post(
    '/api/force',
    {
      schema: {
        summary: 'What a press pushes with on a blank',
        description: 'Give either `setting` or `pressureBar`; the other is worked out.',
        tags: ['press'],
        body: forceQuestionSchema,
        response: { 200: forceAnswerSchema, ...failures },
      },
    },
    (request) => shop.heatDesk.force(request.body),
  );
}
