"""What we do with a letter. The folders are stages, in reading order, and each imports only earlier ones:

letters/      a file of mail becomes letters, and letters become questions
reading/      a question becomes a reading: plant, problem, kind, place, amounts, how sure
calculators/  numbers in, a figure with its working out; knows nothing of letters
drafts/       reading + rules + figures become an e-mail, a cue card and a phone script
answering.py  the whole way in one short function; open that first
store.py      keeps letters, drafts, edits and cleared answers in SQLite
cli/          the `trug` command
"""
