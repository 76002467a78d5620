import { describe, expect, it } from 'vitest';
import {
  bytesText,
  fromUnit,
  lengthText,
  percentText,
  sizeText,
  temperatureText,
  timeText,
  toUnit,
} from './figures.js';

// 1 in = 25.4 mm and °F = 1.8 °C + 32 are exact by definition (NIST SP 811, 2008, appendix B.8).
describe('figures in the person’s units', () => {
  it('goes to inches and back without loss', () => {
    expect(toUnit(25.4, 'in')).toBe(1);
    expect(fromUnit(toUnit(229.93, 'in'), 'in')).toBeCloseTo(229.93, 12);
    expect(lengthText(95, 'in')).toBe('3.74\u00a0in');
  });
  it('leaves no trailing noughts and writes a true minus', () => {
    expect(lengthText(210, 'mm')).toBe('210\u00a0mm');
    expect(lengthText(-0.04, 'mm')).toBe('0\u00a0mm');
    expect(lengthText(-12.5, 'mm')).toBe('\u221212.5\u00a0mm');
    expect(sizeText(210, 297, 'mm')).toBe('210\u00a0×\u00a0297\u00a0mm');
    expect(timeText(100)).toBe('1\u00a0min 40\u00a0s');
    expect(bytesText(1000)).toBe('1 kB');
  });
  it('keeps the noughts that count', () => {
    expect(lengthText(100, 'mm')).toBe('100\u00a0mm');
    expect(percentText(0.2)).toBe('20\u00a0%');
    expect(percentText(0.0004)).toBe('under 0.1\u00a0%');
    expect(timeText(240)).toBe('4\u00a0min');
  });
  it('says 204 °C as 399 °F', () => {
    expect(temperatureText(204, 'F')).toBe('399\u00a0°F');
    expect(temperatureText(200, 'F')).toBe('392\u00a0°F');
  });
});
