import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Only this machine can reach it. */
const LOOPBACK = '127.0.0.1';

export interface Served {
  readonly port: number;
  /** Sends news to every page that is open, and keeps it for those that open later. */
  tell(news: object): void;
  close(): Promise<void>;
}

const HEADERS = {
  'Cache-Control': 'no-store',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Content-Security-Policy': "frame-ancestors 'none'",
} as const;

/**
 * Serves one page and its news on the loopback address. A request that names another host is refused: a page elsewhere
 * whose name was made to mean this machine learns nothing. Port 0 is any free one.
 */
export function servePage(port: number, page: () => string): Promise<Served> {
  const open = new Set<ServerResponse>();
  let last = '';

  function answer(request: IncomingMessage, response: ServerResponse): void {
    if (!isOurs(request, portOf())) refuse(response, 421, 'This page is for this machine alone.');
    else if (request.method !== 'GET' && request.method !== 'HEAD') refuse(response, 405, 'Only to be read.');
    else answerOurs(request, response);
  }
  function answerOurs(request: IncomingMessage, response: ServerResponse): void {
    switch (request.url) {
      case '/':
        response.writeHead(200, { ...HEADERS, 'Content-Type': 'text/html; charset=utf-8' });
        response.end(request.method === 'HEAD' ? undefined : page());
        break;
      case '/news':
        sendNews(request, response);
        break;
      case '/favicon.ico':
        response.writeHead(204, HEADERS).end();
        break;
      default:
        refuse(response, 404, 'There is nothing here. The page is at /.');
    }
  }
  function sendNews(request: IncomingMessage, response: ServerResponse): void {
    response.writeHead(200, { ...HEADERS, 'Content-Type': 'text/event-stream' });
    if (request.method === 'HEAD') {
      response.end();
      return;
    }
    // A page that lost its connection asks again after this many milliseconds.
    response.write(`retry: 1000\n\n${last}`);
    open.add(response);
    response.on('close', () => open.delete(response));
  }

  const server = createServer(answer);
  const portOf = (): number => (server.address() as AddressInfo | null)?.port ?? port;
  return new Promise((done, failed) => {
    server.once('error', failed);
    server.listen(port, LOOPBACK, () => {
      server.off('error', failed);
      done({
        port: portOf(),
        tell(news) {
          last = `data: ${JSON.stringify(news)}\n\n`;
          for (const response of open) response.write(last);
        },
        close: () =>
          new Promise((closed) => {
            server.close(() => closed());
            server.closeAllConnections();
          }),
      });
    });
  });
}

function isOurs({ headers }: IncomingMessage, port: number): boolean {
  return [LOOPBACK, 'localhost'].some((host) => {
    return headers.host === `${host}:${port}` || (port === 80 && headers.host === host);
  });
}

function refuse(response: ServerResponse, status: number, why: string): void {
  response.writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${why}\n`);
}
