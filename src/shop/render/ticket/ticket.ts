import type { TicketRequest } from '../types.js';

export async function writeTicket(_request: TicketRequest): Promise<void> {
  throw new Error('not yet');
}
