// Addresses and sizes of a sheet's files.
import { expect, it } from 'vitest'
import { about_file, file_path, framed_path, size_words } from './sheet_files'

it('writes addresses that are followed to the very file', () => {
  expect(file_path('a1', 'sheet.html')).toBe('/api/jobs/a1/files/sheet.html')
  expect(file_path('a1', 'parts.csv', true)).toBe('/api/jobs/a1/files/parts.csv?save')
  expect(file_path('a/1', 'b c')).toBe('/api/jobs/a%2F1/files/b%20c')
  expect(framed_path('a1', 'dark')).toBe('/api/jobs/a1/files/sheet.html?paper=dark')
  expect(framed_path('a1', undefined)).toBe('/api/jobs/a1/files/sheet.html')
})

it('counts bytes as drives do', () => {
  expect(size_words(999)).toBe('999 B')
  expect(size_words(1000)).toBe('1 kB')
  expect(size_words(597_966)).toBe('598 kB')
  expect(size_words(1_250_000)).toBe('1.25 MB')
})

it('says nothing of a file it does not know', () => {
  expect(about_file('new.bin')).toBe('')
  expect(about_file('sheet.html')).not.toBe('')
})
