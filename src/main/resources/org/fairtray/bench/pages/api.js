// What the pages ask the server. One place for the token, for errors and for a lost connection.

let token = '';

/** What the server refused, in its own words. */
export class ApiError extends Error {
  constructor(status, answer) {
    super(answer?.reason ?? `The bench answered ${status}.`);
    this.status = status;
    this.reason = this.message;
    this.problems = answer?.problems ?? [];
  }
}

/** The bench can't be reached: switched off, out of reach, or the phone is asleep. */
export class Unreachable extends Error {
  constructor() {
    super("The bench can't be reached.");
  }
}

/** What went wrong, in one line: the reason, and each problem with a file. */
export function wentWrong(error) {
  return [error.message, ...(error.problems ?? []).map(problem => problem.sentence)].join(' ');
}

/** Who this browser is to the bench; keeps the token that changes need. */
export async function me() {
  const answer = await get('/api/me');
  token = answer.token;
  return answer;
}

export function get(path) {
  return ask('GET', path);
}

export function send(method, path, body) {
  return ask(method, path, JSON.stringify(body ?? {}), 'application/json');
}

/** Sends a file as it is. */
export function upload(path, blob) {
  return ask('PUT', path, blob, blob.type);
}

async function ask(method, path, body, type) {
  const headers = {Accept: 'application/json'};
  if (method !== 'GET') {
    headers['X-Bench-Token'] = token;
    headers['Content-Type'] = type;
  }
  let response;
  try {
    response = await fetch(path, {method, headers, body, credentials: 'same-origin', cache: 'no-store'});
  } catch {
    throw new Unreachable();
  }
  const answer = await response.json().catch(() => null);
  if (!response.ok) {
    throw new ApiError(response.status, answer);
  }
  return answer;
}
