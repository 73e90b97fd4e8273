// The gallery: every piece with sample answers. For who works on the pages; not in the build.
import { mount } from 'svelte'
import { apply_theme, stored_theme } from '../lib/theme'
import '../style/all.css'
import Gallery from './Gallery.svelte'

apply_theme(stored_theme())
const target = document.getElementById('app')
if (target) mount(Gallery, { target })
