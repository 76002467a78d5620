import { expect, it } from 'vitest';
import { emptyDraft, readDraft, readFigure } from './check-draft.js';

it('figures are taken as people write them', () => {
  expect(readFigure(' 203,5 ')).toBe(203.5);
  expect(readFigure('203 °C')).toBe(203);
  expect(readFigure('')).toBeNull();
  expect(readFigure('hot')).toBeUndefined();
});

it('Fahrenheit is kept as Celsius: 392 °F is 200 °C by definition', () => {
  const draft = { ...emptyDraft, setC: 200, texts: ['392', '', '', '', '401', '', '', '', ''] };
  const read = readDraft(draft, 'F');
  expect(read).toHaveProperty('input.celsius', [200, null, null, null, 205, null, null, null, null]);
});

it('what is missing or cannot be is said at its field', () => {
  expect(readDraft(emptyDraft, 'C')).toMatchObject({ complaints: { setC: expect.any(String) } });
  const wrong = readDraft({ ...emptyDraft, setC: 200, texts: ['200', 'warm', '900'] }, 'C');
  expect(wrong).toMatchObject({
    complaints: {
      'celsius.1': 'A figure is wanted here, or nothing.',
      'celsius.2': expect.stringContaining('300'),
    },
  });
  const hot = readDraft({ ...emptyDraft, setC: 260, texts: ['200'] }, 'C');
  expect(hot).toMatchObject({ complaints: { setC: expect.any(String) } });
});

it('the emissivity goes along with an infra-red thermometer only', () => {
  const texts = ['200'];
  expect(readDraft({ ...emptyDraft, setC: 200, texts }, 'C')).not.toHaveProperty('input.emissivitySet');
  expect(readDraft({ ...emptyDraft, setC: 200, texts, method: 'infra-red' }, 'C')).toHaveProperty(
    'input.emissivitySet',
    0.95,
  );
});
