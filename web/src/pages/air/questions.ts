// The questions of this page, each as a promise that can be given up.
import { ApiError, ask } from '../../lib/api'
import { start_job } from '../../lib/job'
import type { AirJson } from '../../lib/json/air'
import type { PhysicsJson } from '../../lib/json/physics'

async function answered<Answer>(question: string, inputs: Record<string, unknown>, signal: AbortSignal) {
  const job = start_job<Answer>(question, inputs)
  const give_up = () => {
    job.stop()
    job.leave()
  }
  signal.addEventListener('abort', give_up)
  try {
    const ended = await job.ended
    if (ended.answer === undefined) throw new ApiError('stopped', 'The work was stopped before there was an answer.')
    return { id: ended.id, answer: ended.answer }
  } finally {
    signal.removeEventListener('abort', give_up)
  }
}

export const ask_air = (inputs: Record<string, unknown>) => async (signal: AbortSignal) =>
  (await answered<AirJson>('air', inputs, signal)).answer

/** The pictures' numbers stand among the files of the sheet. */
export const ask_physics = (inputs: Record<string, unknown>) => async (signal: AbortSignal) => {
  const { id } = await answered<unknown>('sheet', inputs, signal)
  return ask<PhysicsJson>(`/jobs/${encodeURIComponent(id)}/files/physics.json`, { signal })
}
