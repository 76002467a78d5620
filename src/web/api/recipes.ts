import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { AdoptRecipe, RecipeOnPress, RecipeSuggestion, RecipeVersion, SuggestRequest } from '#contract';
import { callJson } from './call.js';

const at = (blankId: string) => `/api/blanks/${encodeURIComponent(blankId)}/recipes`;

/** Versions of a blank's recipe, newest first; the newest is the one in use. */
export const useRecipeVersions = (blankId: string | null) =>
  useQuery({
    queryKey: ['recipes', blankId],
    queryFn: ({ signal }) => callJson<RecipeVersion[]>(at(blankId ?? ''), { signal }),
    enabled: blankId !== null,
  });

/** What to set on a press for the blank's recipe. */
export const useRecipeOnPress = (blankId: string | null, pressId: string | null) =>
  useQuery({
    queryKey: ['recipes', blankId, 'on', pressId],
    queryFn: ({ signal }) =>
      callJson<RecipeOnPress>(`${at(blankId ?? '')}/on/${encodeURIComponent(pressId ?? '')}`, { signal }),
    enabled: blankId !== null && pressId !== null,
  });

/** Make a recipe the blank's; it becomes a new version. */
export function useAdoptRecipe(blankId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (request: AdoptRecipe) => callJson<RecipeVersion>(at(blankId), { body: request }),
    onSuccess: () => {
      for (const key of ['recipes', 'blanks', 'heat', 'suggestions', 'proposal', 'test-sheet-proposal']) {
        void client.invalidateQueries({ queryKey: [key] });
      }
    },
  });
}

/** A start recipe carried over from a blank that works. */
export const useSuggestion = (request: SuggestRequest | null) =>
  useQuery({
    queryKey: ['suggestions', request],
    queryFn: ({ signal }) => callJson<RecipeSuggestion>('/api/recipes/suggest', { body: request, signal }),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });
