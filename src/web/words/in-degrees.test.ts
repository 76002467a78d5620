import { describe, expect, it } from 'vitest';
import { inDegrees } from './in-degrees.js';

// °F = 1.8 °C + 32, a difference 1.8 times as many, exact by definition (NIST SP 811, 2008, appendix B.8).
describe('sentences of the server in Fahrenheit', () => {
  it.each([
    [
      'Press 196 °C for 52 s: it bears 6 s less and 2 s more.',
      'Press 385 °F for 52 s: it bears 6 s less and 2 s more.',
    ],
    [
      'The platen is 5 °C cooler than it says: set 205 for 200.',
      'The platen is 9 °F cooler than it says: set 401 for 392.',
    ],
    [
      'Over the platen it differs by 9 °C: 200 °C at the back right, 191 °C at the front left.',
      'Over the platen it differs by 16 °F: 392 °F at the back right, 376 °F at the front left.',
    ],
    [
      'But this instrument cannot tell better than ±3 °C.',
      'But this instrument cannot tell better than ±5 °F.',
    ],
    [
      'It burns for about 16 min after the press, in still air, until it is below 48 °C: heat gloves.',
      'It burns for about 16 min after the press, in still air, until it is below 118 °F: heat gloves.',
    ],
    [
      'A platen 5 °C too cool asks for 48 s more, 5 °C too hot 39 s less.',
      'A platen 9 °F too cool asks for 48 s more, 9 °F too hot 39 s less.',
    ],
    [
      'The platen sinks by 0.8 °C when the cold blank comes.',
      'The platen sinks by 1.4 °F when the cold blank comes.',
    ],
    [
      'In 60 s the dye’s place gets no hotter than 58 °C (50 to 70), of the platen’s 200 °C; within 10 °C of it would take 90 s.',
      'In 60 s the dye’s place gets no hotter than 136 °F (122 to 158), of the platen’s 392 °F; within 18 °F of it would take 90 s.',
    ],
    ['Keep PTFE sheets well below 260 °C.', 'Keep PTFE sheets well below 500 °F.'],
    [
      'Over the platen it differs by 12 °C: 189 °C at the top left, 177 °C at the bottom right.',
      'Over the platen it differs by 21 °F: 372 °F at the top left, 351 °F at the bottom right.',
    ],
    [
      'Start with 204 °C (set 209) for 361 s (203 to 741).',
      'Start with 399 °F (set 408) for 361 s (203 to 741).',
    ],
    ['annealed glass cracks from about 40 °C.', 'annealed glass cracks from about 72 °F.'],
    ['The readings are 176 s below.', 'The readings are 176 s below.'],
    ['The front is 2.1 °C cooler than the back.', 'The front is 3.8 °F cooler than the back.'],
    ['Set the press to 201 °C for a true 196 °C.', 'Set the press to 394 °F for a true 385 °F.'],
    [
      'activation energy 91 kJ/mol: figures in °C are rough.',
      'activation energy 91 kJ/mol: figures in °F are rough.',
    ],
  ])('%s', (celsius, fahrenheit) => {
    expect(inDegrees(celsius, 'F')).toBe(fahrenheit);
    expect(inDegrees(celsius, 'C')).toBe(celsius);
  });
});
