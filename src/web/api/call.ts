import type { ProblemDetails } from '#contract';

/** What the server says when it cannot do what was asked. The page shows it in place. */
export class ServerProblem extends Error {
  constructor(readonly details: ProblemDetails) {
    super(details.detail);
    this.name = 'ServerProblem';
  }
}

const unreachable: ProblemDetails = {
  type: 'about:blank',
  code: 'page.no-answer',
  title: 'Dyewright does not answer',
  status: 0,
  detail: 'The page could not reach the program it belongs to.',
  remedy:
    'See whether Dyewright is still running in its window, start it again if not, then reload this page.',
  where: null,
};

const isDetails = (value: unknown): value is ProblemDetails =>
  typeof value === 'object' && value !== null && 'title' in value && 'detail' in value && 'remedy' in value;

/** Any thrown value as problem details; what are such details already (of work that failed) stay as they are. */
export function problemOf(error: unknown): ProblemDetails {
  if (error instanceof ServerProblem) return error.details;
  if (isDetails(error)) return error;
  return {
    ...unreachable,
    code: 'page.fault',
    title: 'Something went wrong in the page',
    detail: String(error),
    remedy: 'Reload this page. If it happens again, report it with what you did just before.',
  };
}

async function answer(path: string, init?: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new ServerProblem(unreachable);
  }
  if (response.ok) return response;
  const text = await response.text();
  try {
    throw new ServerProblem(JSON.parse(text) as ProblemDetails);
  } catch (error) {
    if (error instanceof ServerProblem) throw error;
    throw new ServerProblem({
      ...unreachable,
      status: response.status,
      detail: `It answered ${response.status} without saying why.`,
    });
  }
}

/** GET or send JSON, get JSON (or nothing, for 204). */
export async function callJson<T>(
  path: string,
  options: { method?: string; body?: unknown; signal?: AbortSignal | undefined } = {},
): Promise<T> {
  const response = await answer(path, {
    method: options.method ?? (options.body === undefined ? 'GET' : 'POST'),
    ...(options.body === undefined
      ? {}
      : { body: JSON.stringify(options.body), headers: { 'content-type': 'application/json' } }),
    ...(options.signal ? { signal: options.signal } : {}),
  });
  if (response.status === 204) return undefined as T;
  return (await response.json()) as T;
}

/** Send a file with its fields. Fields go first, so that the server knows them before the bytes come. */
export async function callUpload<T>(
  path: string,
  file: File,
  fields: Record<string, string>,
  signal?: AbortSignal,
): Promise<T> {
  return callForm<T>(path, fields, { file }, signal);
}

/** Several files with their fields, the fields first. */
export async function callForm<T>(
  path: string,
  fields: Record<string, string>,
  files: Record<string, File>,
  signal?: AbortSignal,
): Promise<T> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  for (const [name, file] of Object.entries(files)) form.append(name, file, file.name);
  const response = await answer(path, { method: 'POST', body: form, ...(signal ? { signal } : {}) });
  return (await response.json()) as T;
}

/** A picture the server draws; fetched rather than linked so that a problem can be shown in its words. */
export async function callPicture(path: string, signal?: AbortSignal): Promise<Blob> {
  return (await answer(path, signal ? { signal } : {})).blob();
}
