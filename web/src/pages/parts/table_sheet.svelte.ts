// A table of the catalog while somebody writes in it: checked a moment after each change, written once
// it is right, kept in this browser until then; undone and done again through the table's revisions.
import { ApiError, is_abort, type Trouble } from '../../lib/api'
import { edit_table, put_table_back, read_table, table_revisions, type Table } from '../../lib/documents'
import type { CellChange } from '../../shell/grid_model'
import { keep_own, kept_own, with_own, type OwnRows } from './own_rows'
import { key_places } from './rows'
import {
  cells_at, edits_of, is_empty, is_settled, keep_draft, kept_draft, lines_of, no_draft, said_of, view_of, with_changes,
  without_draft, without_rows, type RowDraft, type SheetDraft
} from './sheet_draft'
import { known_wrong, with_known, type KnownWrong } from './sheet_known'
import { placed, waiting_rows, type Placed } from './sheet_lines'
import { add_again, after_written, keep_mine, rebased, take_theirs } from './sheet_merge'
import { can_redo, can_undo, edited, no_trail, opened, remember_trail, remembered_trail, step_to, stepped, type Trail } from './trail'

const check_after_ms = 250
const write_after_ms = 700
const none: Placed = { cells: new Map(), wrong: new Set(), others: [], count: 0 }
const no_table: Table = { name: '', columns: [], rows: [], revision: '' }

const told = (error: unknown) => (error instanceof ApiError ? error : new ApiError('not_understood', String(error)))

export class TableSheet {
  name = ''
  table = $state.raw<Table>(no_table)
  draft = $state.raw<SheetDraft>(no_draft)
  trail = $state.raw<Trail>(no_trail)
  found = $state.raw<Placed>(none)
  loading = $state(true)
  /** A check or a writing is under way. */
  busy = $state(false)
  /** Whole: nothing could be read. */
  failed = $state.raw<ApiError | null>(null)
  /** The last step did not work; what was written is still here. */
  error = $state.raw<ApiError | null>(null)
  /** What was done last, in words. */
  said = $state('')
  /** What was written here and is in the file. */
  own = $state.raw<OwnRows>({})
  /** The file was changed elsewhere, in words. */
  changed_elsewhere = $state('')
  keeps = $state(true)
  lines = $derived(lines_of(this.table))
  view = $derived(view_of(this.table, this.draft, this.lines))
  can_undo = $derived(!is_empty(this.draft) || can_undo(this.trail))
  can_redo = $derived(can_redo(this.trail))
  /** Those of the file; further columns come from the schema. */
  file_columns = $derived(this.table.rows[0]?.cells.length ?? this.table.columns.length)
  #key: readonly string[] = []
  #before: SheetDraft[] = []
  #known: readonly KnownWrong[] = []
  #timer: ReturnType<typeof setTimeout> | undefined
  #working: Promise<void> | null = null
  #changed_at = 0
  #left = false
  #sick = false
  #on_written: () => void

  /** `on_written` is called when the file has changed. */
  constructor(on_written: () => void) {
    this.#on_written = on_written
  }

  /** In: `sick`: the catalog as it stands has problems; those of this table are shown at their cells. */
  async open(name: string, key: readonly string[], sick: boolean): Promise<void> {
    clearTimeout(this.#timer)
    this.name = name
    this.#key = key
    this.#sick = sick
    this.loading = true
    this.failed = this.error = null
    this.said = this.changed_elsewhere = ''
    this.#before = []
    this.#known = []
    this.found = none
    this.table = no_table
    this.draft = no_draft
    try {
      const [table, head, kept] = await Promise.all([read_table(name), this.#head(), kept_draft(name)])
      if (this.name !== name) return
      this.table = table
      this.own = kept_own(name)
      this.#follow(opened(remembered_trail(name), head, table.revision))
      if (kept && !is_empty(kept.draft)) {
        this.draft = kept.revision === table.revision ? kept.draft : rebased(kept.draft, kept.columns, table, this.#places())
        this.said = 'What was written here before and is not in the file yet is shown again.'
        this.#touched(0)
      } else if (sick) this.#later(0)
    } catch (error) {
      if (!is_abort(error) && this.name === name) this.failed = told(error)
    } finally {
      if (this.name === name) this.loading = false
    }
  }

  #places = () => key_places(this.table.columns, this.#key)
  #head = async () => (await table_revisions(this.name)).at(-1)?.revision ?? 0

  #follow(trail: Trail): void {
    this.trail = trail
    remember_trail(this.name, trail)
  }

  #put(draft: SheetDraft): void {
    this.#before = [...this.#before.slice(-99), this.draft]
    this.draft = draft
    this.said = ''
    this.#touched(check_after_ms)
  }
  #touched(wait_ms: number): void {
    this.keeps = keep_draft(this.table, this.draft)
    this.#changed_at = Date.now()
    this.#later(wait_ms)
  }
  #later(wait_ms: number): void {
    clearTimeout(this.#timer)
    if (!this.#left) this.#timer = setTimeout(() => void this.settle(), wait_ms)
  }

  write(changes: readonly CellChange[]): void {
    this.#put(with_changes(this.view, changes))
  }
  remove(rows: readonly number[]): void {
    this.#put(without_rows(this.view, rows))
  }
  give_up(n: number): void {
    this.#put(without_draft(this.draft, n))
  }
  keep_mine(n: number, column: string): void {
    this.#put(keep_mine(this.draft, n, column))
  }
  take_theirs(n: number, column: string): void {
    this.#put(take_theirs(this.draft, n, column))
  }
  add_again(n: number): void {
    this.#put(add_again(this.draft, n, this.table.columns))
  }

  /** Checks what is there, and writes what is right once nobody has typed for a moment. */
  async settle(): Promise<void> {
    clearTimeout(this.#timer)
    if (this.#working) {
      await this.#working
      this.#later(0)
      return
    }
    this.#working = this.#check()
    await this.#working
    this.#working = null
  }

  async #check(): Promise<void> {
    const { name, draft, table } = this
    const { edits, sent } = edits_of(draft)
    if (edits.length === 0 && !this.#sick) {
      this.found = none
      this.#known = []
      return
    }
    this.busy = true
    try {
      const answer = await edit_table(name, table.revision, edits, false)
      if (this.name !== name) return
      if (this.draft !== draft) return this.#later(check_after_ms)
      this.error = null
      this.found = this.#place(answer.problems, answer.problem_count, sent)
      this.#sick &&= answer.problem_count > 0
      if (edits.length === 0) return
      const quiet_ms = Date.now() - this.#changed_at
      if (quiet_ms < write_after_ms && !this.#left) {
        this.#timer = setTimeout(() => void this.#write_now(answer.problem_count === 0), write_after_ms - quiet_ms)
      } else await this.#write(answer.problem_count === 0)
    } catch (error) {
      await this.#refused(name, error)
    } finally {
      this.busy = false
    }
  }

  #place(problems: readonly Trouble[], count: number, sent: readonly RowDraft[]): Placed {
    const { view, table } = this
    const row_of_n = (n: number) => table.rows.length + view.added.findIndex((row) => row.n === n)
    const told = { ...placed(problems, table, this.file_columns, sent, row_of_n, (row) => cells_at(view, row)), count }
    const found = with_known(told, this.#known, view)
    this.#known = known_wrong(found, view)
    return found
  }

  async #write_now(all_right: boolean): Promise<void> {
    if (this.#working) return this.#later(check_after_ms)
    this.busy = true
    const name = this.name
    this.#working = this.#write(all_right)
      .catch((error: unknown) => this.#refused(name, error))
      .finally(() => {
        this.busy = false
      })
    await this.#working
    this.#working = null
  }

  async #write(all_right: boolean): Promise<void> {
    const { name, draft, table } = this
    const waiting = all_right ? [] : waiting_rows(draft, this.found, this.#key)
    if (!all_right && waiting.length === 0) return
    const { edits, sent } = edits_of(draft, waiting)
    if (edits.length === 0) return
    const answer = await edit_table(name, table.revision, edits, true)
    if (this.name !== name || !answer.written) return
    const [now, head] = await Promise.all([read_table(name), this.#head()])
    if (this.name !== name) return
    const left = now.revision === answer.revision ? after_written(this.draft, sent, table, now) : null
    this.draft = left ?? rebased({ ...this.draft, rows: this.draft.rows.filter((row) => !sent.includes(row)) }, table.columns, now, this.#places())
    this.own = with_own(kept_own(name), sent, table.columns, key_places(table.columns, this.#key))
    keep_own(name, this.own)
    this.table = now
    this.#before = []
    this.#follow(edited(this.trail, head, answer.revision))
    this.said = `Written: ${said_of(sent)}.`
    this.changed_elsewhere = ''
    this.found = none
    this.keeps = keep_draft(now, this.draft)
    this.#on_written()
    if (this.draft.rows.some(is_settled)) this.#later(check_after_ms)
  }

  async #refused(name: string, error: unknown): Promise<void> {
    if (this.name !== name || is_abort(error)) return
    const refusal = told(error)
    if (refusal.code === 'conflict') await this.look_again()
    else this.error = refusal
  }

  /** The file was changed elsewhere: read again, the draft laid over it; both are kept. */
  async look_again(): Promise<void> {
    const { name, table } = this
    try {
      const [now, head] = await Promise.all([read_table(name), this.#head()])
      if (this.name !== name || now.revision === this.table.revision) return
      this.draft = rebased(this.draft, table.columns, now, this.#places())
      this.table = now
      this.#before = []
      this.found = none
      this.#follow(opened(this.trail, head, now.revision))
      this.changed_elsewhere = `${name}.csv was changed on disk or in another window. It is shown as it is now${is_empty(this.draft) ? '' : ', with what you wrote over it'}; both are kept.`
      this.#on_written()
      this.#touched(check_after_ms)
    } catch (error) {
      if (!is_abort(error)) this.error = told(error)
    }
  }

  async undo(): Promise<void> {
    if (!is_empty(this.draft)) {
      this.draft = this.#before.at(-1) ?? no_draft
      this.#before = this.#before.slice(0, -1)
      this.said = 'Taken back; it was not in the file yet.'
      this.#touched(check_after_ms)
      return
    }
    await this.#step(-1)
  }
  redo = () => this.#step(1)

  async #step(by: -1 | 1): Promise<void> {
    while (this.#working) await this.#working
    const to = step_to(this.trail, by)
    if (to === null || this.busy) return
    const name = this.name
    this.busy = true
    try {
      const answer = await put_table_back(name, to)
      if (this.name !== name) return
      if (!answer.written) {
        this.error = new ApiError('bad_input', 'This step cannot be taken: the catalog would not be right.', 0, answer.problems)
        return
      }
      const [now, head] = await Promise.all([read_table(name), this.#head()])
      this.draft = rebased(this.draft, this.table.columns, now, this.#places())
      this.table = now
      this.error = null
      this.found = none
      this.#follow(stepped(this.trail, by, head, now.revision))
      this.said = by < 0 ? 'Undone.' : 'Done again.'
      this.changed_elsewhere = ''
      this.#on_written()
    } catch (error) {
      if (!is_abort(error)) this.error = told(error)
    } finally {
      this.busy = false
    }
  }

  /** The page goes away: what is right is written at once. */
  leave(): void {
    this.#left = true
    clearTimeout(this.#timer)
    if (!is_empty(this.draft) && !this.loading) void this.settle()
  }
}
