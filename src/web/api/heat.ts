import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { ForceAnswer, ForceQuestion, HeatLook, HeatQuestion } from '#contract';
import { callJson } from './call.js';

/** What the model of heat says of a press run; the last answer stays while the next is worked out. */
export const useHeatLook = (question: HeatQuestion | null) =>
  useQuery({
    queryKey: ['heat', question],
    queryFn: ({ signal }) => callJson<HeatLook>('/api/heat', { body: question, signal }),
    enabled: question !== null,
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
  });

/** What a press pushes with. */
export const useForce = (question: ForceQuestion | null) =>
  useQuery({
    queryKey: ['force', question],
    queryFn: ({ signal }) => callJson<ForceAnswer>('/api/force', { body: question, signal }),
    enabled: question !== null,
    placeholderData: keepPreviousData,
  });
