import sys; sys.path[:0]=['/work/main/tests','/work/main/tests/pages']
import test_javascript as tj
from test_javascript import *
def test_mine(page, script_page, monkeypatch):
    mine={n:p for n,p in tj.EVERY.items() if 'cutting' in p.function.__module__}
    page.goto(script_page.as_uri())
    for name, procedure in mine.items():
        chance=random.Random(name); calls=[]; wanted=[]
        while len(calls)<FEWER.get(name,POINTS):
            v=arguments.draw(procedure,chance)
            wanted.append(procedure(**v)); calls.append(list(v.values()))
        for f,r,c in zip(tj._asked(page,name,calls),wanted,calls): assert tj._agree(f,r),(name,c,f,r)
    assert len(mine)>30
