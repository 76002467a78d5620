import { describe, expect, it } from 'vitest';
import { roundState, standingSentence } from './round-state.js';

const sheet = { id: 's1', kind: 'colour' } as never;
const reading = (subject: 'piece' | 'paper') => ({ id: 'r1', sheetId: 's1', subject }) as never;
const path = { id: 'p1', createdAt: '2026-09-02', measurement: { readingIds: ['r1'] } } as never;
const older = { id: 'p0', createdAt: '2026-09-01', measurement: { readingIds: ['r1'] } } as never;
const nothing = { readings: [], paths: [], standings: [], judged: false, said: {} };
const done = (state: ReturnType<typeof roundState>) =>
  state.stages.filter((one) => one.done).map((one) => one.stage);

describe('how far a round has come', () => {
  it('begins made, with pressing next', () => {
    const state = roundState(sheet, nothing);
    expect(done(state)).toEqual(['made']);
    expect(state.next).toBe('pressed');
  });
  it('takes a person’s word for pressing', () => {
    expect(roundState(sheet, { ...nothing, said: { pressed: true } }).next).toBe('read');
  });
  it('is not read by a scan of the paper', () => {
    expect(roundState(sheet, { ...nothing, readings: [reading('paper')] }).next).toBe('pressed');
  });
  it('knows the path by the readings it was learnt from', () => {
    const state = roundState(sheet, { ...nothing, readings: [reading('piece')], paths: [older, path] });
    expect(done(state)).toEqual(['made', 'pressed', 'read', 'path']);
    expect(state.path).toBe(path);
    expect(state.next).toBe('checked');
  });
  it('does not take another sheet’s reading for its own', () => {
    const other = { id: 'r1', sheetId: 's2', subject: 'piece' } as never;
    expect(roundState(sheet, { ...nothing, readings: [other] }).next).toBe('pressed');
  });
});

describe('where the shop stands', () => {
  it.each([
    [{ paths: 0, toLookAt: 0, unchecked: 0, underWay: 0 }, 'No colour path measured yet.'],
    [{ paths: 0, toLookAt: 0, unchecked: 0, underWay: 1 }, 'A first colour path is under way.'],
    [{ paths: 2, toLookAt: 0, unchecked: 1, underWay: 0 }, 'Two colour paths, one wants a check.'],
    [{ paths: 1, toLookAt: 1, unchecked: 0, underWay: 0 }, 'One colour path, and it no longer quite fits.'],
    [{ paths: 3, toLookAt: 2, unchecked: 1, underWay: 0 }, 'Three colour paths, two no longer quite fit.'],
    [{ paths: 1, toLookAt: 0, unchecked: 0, underWay: 0 }, 'One colour path, checked: it holds.'],
  ])('%o', (shop, sentence) => expect(standingSentence(shop)).toBe(sentence));
});
