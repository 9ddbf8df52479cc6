# The words of the house: each sets up what it needs the first time, and again when the set-up changes.
RUN := .venv/bin/

.PHONY: lesson test speed fix pictures browser

lesson: .setup-done ## builds a lesson over two rigs and says where it is
	@$(RUN)gantline lesson src/gantline/shelf/planter.rig src/gantline/shelf/runner-up.rig -o lesson

test: .setup-done browser ## everything that must hold
	@$(RUN)pytest -n auto --dist loadfile

speed: .setup-done ## the speed table of docs/speed.md, measured here
	@$(RUN)python tools/speed.py
	@$(RUN)python tools/speed_loft.py
	@$(RUN)python tools/speed_film.py

fix: .setup-done ## what a machine can mend: layout of code and rigs, what documents show
	@$(RUN)ruff check --fix src tests tools
	@$(RUN)ruff format src tests tools
	@for rig in src/gantline/shelf/*.rig; do $(RUN)gantline tidy $$rig; done
	@$(RUN)python tools/docs.py

pictures: .setup-done ## the figures of the README
	@$(RUN)python tools/pictures.py

browser:
	@tools/set-up browser

.setup-done: pyproject.toml tools/set-up tools/assets.py tools/package-lock.json
	@tools/set-up python
	@touch $@
