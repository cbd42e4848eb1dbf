import { once } from 'node:events';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Provider } from 'oidc-provider';

export interface ProviderAccount {
  email: string;
  email_verified: boolean;
  name: string;
}

export interface StartedProvider {
  issuer: string;
  clientId: string;
  clientSecret: string;
  /** by what the login form takes as the name */
  accounts: Map<string, ProviderAccount>;
  stop(): Promise<void>;
}

/** A certified OpenID Connect provider (oidc-provider) on this machine, with its own forms to sign in and consent. */
export async function startProvider(redirectUri: string): Promise<StartedProvider> {
  const accounts = new Map<string, ProviderAccount>();
  const clientId = 'slipdrift-tests';
  const clientSecret = 'a-client-secret-of-the-tests';
  const server = await listen();
  const issuer = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const provider = new Provider(issuer, {
    clients: [
      {
        client_id: clientId,
        client_secret: clientSecret,
        redirect_uris: [redirectUri],
        token_endpoint_auth_method: 'client_secret_post',
      },
    ],
    claims: { openid: ['sub'], email: ['email', 'email_verified'], profile: ['name'] },
    conformIdTokenClaims: false,
    findAccount: async (_, id) => ({
      accountId: id,
      claims: async () => ({ sub: id, ...accounts.get(id) }),
    }),
    cookies: { keys: ['of the tests'] },
  });
  const answer = provider.callback();
  server.on('request', (request, response) => void answer(request, response));
  return {
    issuer,
    clientId,
    clientSecret,
    accounts,
    async stop() {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  };
}

async function listen(): Promise<Server> {
  const { createServer } = await import('node:http');
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return server;
}
