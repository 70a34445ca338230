"""What was chosen for a tool that does several jobs, in one line."""

from jawcam.tools.reasons import Reasons, merged

ROUGH = Reasons(3, "8000 rpm", "feed 2351 mm/min: thin chips", ("straight down 764 mm/min: half",))
FINISH = Reasons(3, "8000 rpm", "feed 1559 mm/min", ("full width 764 mm/min", *ROUGH.more))


def test_another_feed_at_its_next_work_is_told_too_and_the_same_words_once():
    (one,) = merged([ROUGH, FINISH, FINISH])
    assert one.feed == ROUGH.feed
    assert one.more == (*ROUGH.more, "then feed 1559 mm/min", "full width 764 mm/min")


def test_tools_stand_in_the_order_in_which_they_come():
    other = Reasons(1, "5000 rpm", "feed 900 mm/min")
    assert [one.number for one in merged([ROUGH, other, FINISH])] == [3, 1]
