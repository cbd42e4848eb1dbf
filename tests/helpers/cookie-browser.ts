/** A browser as far as redirects, cookies and forms go: enough to walk through a sign-in of two sites. */
export function createCookieBrowser() {
  const jar = new Map<string, Map<string, string>>();

  /** One request, its cookies kept; redirects are left to the caller. */
  async function send(address: string, init: RequestInit = {}): Promise<Response> {
    const { host, origin } = new URL(address);
    const cookies = jar.get(host) ?? new Map<string, string>();
    jar.set(host, cookies);
    const headers = new Headers(init.headers);
    if (cookies.size > 0)
      headers.set('cookie', [...cookies].map(([name, value]) => `${name}=${value}`).join('; '));
    if (init.method === 'POST') headers.set('origin', origin);
    const answer = await fetch(address, { ...init, headers, redirect: 'manual' });
    for (const one of answer.headers.getSetCookie()) {
      const [pair = '', ...attributes] = one.split(';');
      const at = pair.indexOf('=');
      const ended = attributes.some((text) => /max-age=0|1970/i.test(text));
      if (ended) cookies.delete(pair.slice(0, at));
      else cookies.set(pair.slice(0, at), pair.slice(at + 1));
    }
    return answer;
  }

  /** Follows redirects until a page answers, and says where that is. */
  async function follow(
    address: string,
    init: RequestInit = {},
  ): Promise<{ address: string; answer: Response }> {
    let at = address;
    let answer = await send(at, init);
    for (let hop = 0; hop < 12; hop += 1) {
      const next = answer.headers.get('location');
      if (next === null) return { address: at, answer };
      at = new URL(next, at).href;
      answer = await send(at);
    }
    throw new Error(`${address} leads from page to page and never ends`);
  }

  return { send, follow };
}
