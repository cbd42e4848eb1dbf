import './ui/fonts.css';
import './ui/tokens.css';
import './ui/page.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createQueryClient } from './api/query-client.ts';
import { sessionOptions } from './api/session.ts';
import { createAppRouter } from './router.tsx';

const root = document.getElementById('app');
if (root === null) throw new Error('The page has no element with id app');

const client = createQueryClient();
// Asked before the first line is drawn: every screen waits for who is signed in, but for a link's, where nobody is.
if (window.location.pathname !== '/shared') void client.prefetchQuery(sessionOptions);

createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={client}>
      <RouterProvider router={createAppRouter()} />
    </QueryClientProvider>
  </StrictMode>,
);
