import { expect, it } from 'vitest';
import { problemOf, ServerProblem } from './call.js';

const details = {
  type: 'about:blank',
  code: 'scan.unclear',
  title: 'The picture shows no test sheet',
  status: 0,
  detail: 'The picture shows no test sheet.',
  remedy: 'Scan the whole sheet.',
  where: null,
};

it('keeps what is a problem already: thrown by a call, or told by work that failed', () => {
  expect(problemOf(new ServerProblem(details))).toBe(details);
  expect(problemOf(details)).toBe(details);
});

it('a fault of the page itself is told as one', () => {
  expect(problemOf(new TypeError('x is no function'))).toMatchObject({
    code: 'page.fault',
    detail: 'TypeError: x is no function',
  });
});
