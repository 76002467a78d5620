import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  BlackAnswer,
  BlackQuestion,
  Job,
  Ladder,
  LadderNotes,
  WindowCourses,
  WindowFieldFacts,
} from '#contract';
import { callForm, callJson, ServerProblem } from './call.js';
import { useWork } from './work.js';

const at = (sheetId: string) => `/api/ladders/${encodeURIComponent(sheetId)}`;
const keyOf = (sheetId: string | null) => ['ladders', 'of', sheetId] as const;

/** Ladders of the shop, or of one blank. */
export const useLadders = (blankId?: string) =>
  useQuery({
    queryKey: ['ladders', 'all', blankId ?? null],
    queryFn: ({ signal }) =>
      callJson<Ladder[]>(blankId ? `/api/ladders?${new URLSearchParams({ blankId })}` : '/api/ladders', {
        signal,
      }),
  });
export const useLadder = (sheetId: string | null) =>
  useQuery({
    queryKey: keyOf(sheetId),
    queryFn: ({ signal }) => callJson<Ladder>(at(sheetId ?? ''), { signal }),
    enabled: sheetId !== null,
  });

/** The window as a picture, and the values over time. Asked for again whenever the ladder has changed. */
export const useLadderField = (ladder: Ladder) =>
  useQuery({
    queryKey: ['ladders', 'field', ladder.sheetId, ladder.updatedAt],
    queryFn: ({ signal }) => callJson<WindowFieldFacts>(`${at(ladder.sheetId)}/field`, { signal }),
    enabled: ladder.window !== null,
    placeholderData: keepPreviousData,
  });
export const useLadderCourses = (ladder: Ladder) =>
  useQuery({
    queryKey: ['ladders', 'courses', ladder.sheetId, ladder.updatedAt],
    queryFn: ({ signal }) => callJson<WindowCourses>(`${at(ladder.sheetId)}/courses`, { signal }),
    enabled: ladder.window !== null,
    placeholderData: keepPreviousData,
  });

/** Have a scan of coupons read and follow it; found again after a reload. */
export function useLadderReading(place: string, onDone: (sheetId: string) => void) {
  const client = useQueryClient();
  const work = useWork(`read-ladder.${place}`, (id) => {
    void client.invalidateQueries({ queryKey: ['ladders'] });
    onDone(id);
  });
  return {
    ...work,
    read: (file: File, about: { readonly sheetId?: string; readonly readerId?: string }) =>
      work.start((signal) => callForm<Job>('/api/ladders/pictures', { ...about }, { file }, signal)),
  };
}
export type LadderReading = ReturnType<typeof useLadderReading>;

/**
 * What a person says of coupons. Shown at once; sent one after the other, so that a quick second word cannot be
 * overtaken by the first.
 */
export function useNoteCoupons(sheetId: string) {
  const client = useQueryClient();
  return useMutation({
    scope: { id: `notes.${sheetId}` },
    mutationFn: (notes: LadderNotes) => callJson<Ladder>(`${at(sheetId)}/notes`, { body: notes }),
    onMutate: (notes) => {
      client.setQueryData<Ladder>(keyOf(sheetId), (old) => old && withNotes(old, notes));
    },
    onSuccess: (ladder) => {
      // While a further word is on its way, what is shown is newer than this answer.
      if (client.isMutating({ mutationKey: ['notes', sheetId] }) > 1) return;
      client.setQueryData<Ladder>(keyOf(sheetId), ladder);
      void client.invalidateQueries({ queryKey: ['ladders', 'all'] });
    },
    // What was shown too early is put right from what the shop has.
    onError: () => client.invalidateQueries({ queryKey: keyOf(sheetId) }),
    mutationKey: ['notes', sheetId],
  });
}

function withNotes(ladder: Ladder, notes: LadderNotes): Ladder {
  return {
    ...ladder,
    coupons: ladder.coupons.map((coupon) => {
      const said = notes.coupons.find((one) => one.number === coupon.number);
      return said
        ? {
            ...coupon,
            ...(said.pressed === undefined ? {} : { pressed: said.pressed }),
            ...(said.byEye === undefined ? {} : { byEye: said.byEye }),
            ...(said.leftOut === undefined ? {} : { leftOut: said.leftOut }),
          }
        : coupon;
    }),
  };
}

export function useRemoveLadderPicture(sheetId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (pictureId: string) =>
      callJson<unknown>(`${at(sheetId)}/pictures/${encodeURIComponent(pictureId)}`, { method: 'DELETE' }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['ladders'] }),
  });
}

/** Everything known of a ladder goes, and its sheet with it. */
export function useRemoveLadder() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (sheetId: string) => {
      await callJson<unknown>(at(sheetId), { method: 'DELETE' });
      // A ladder is as long as its sheet is: with the sheet left, it would be there again, empty.
      await callJson<unknown>(`/api/test-sheets/${encodeURIComponent(sheetId)}`, { method: 'DELETE' }).catch(
        (error: unknown) => {
          if (!(error instanceof ServerProblem && error.details.status === 404)) throw error;
        },
      );
    },
    onSuccess: () => {
      void client.invalidateQueries({ queryKey: ['ladders'] });
      void client.invalidateQueries({ queryKey: ['test-sheets'] });
    },
  });
}

/** What one black says. */
export const useBlackAnswer = (question: BlackQuestion | null) =>
  useQuery({
    queryKey: ['ladders', 'black', question],
    queryFn: ({ signal }) => callJson<BlackAnswer>('/api/press/black', { body: question, signal }),
    enabled: question !== null,
    placeholderData: keepPreviousData,
  });
