import './look/index.js';
import { MantineProvider } from '@mantine/core';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { cssVariables, theme } from './look/index.js';
import { router } from './routes.js';

const queries = new QueryClient({
  // The program runs on this machine: no stale guesses, no silent retries of a wrong request.
  defaultOptions: {
    queries: { retry: false, staleTime: 30_000, refetchOnWindowFocus: false },
    mutations: { retry: false },
  },
});

const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <StrictMode>
      <QueryClientProvider client={queries}>
        <MantineProvider theme={theme} cssVariablesResolver={cssVariables} defaultColorScheme="auto">
          <RouterProvider router={router} />
        </MantineProvider>
      </QueryClientProvider>
    </StrictMode>,
  );
}
