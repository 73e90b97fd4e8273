// Begins the pages: paper and ink first, then the page of the address.
import { mount } from 'svelte'
import App from './App.svelte'
import { apply_theme, stored_theme } from './lib/theme'
import './style/all.css'

apply_theme(stored_theme())
const target = document.getElementById('app')
if (target) mount(App, { target })
