"""How an answer becomes a mark: read, run, judge, record; one module a stage.

Only data passes from stage to stage, and only `running` executes what an apprentice wrote.
"""
