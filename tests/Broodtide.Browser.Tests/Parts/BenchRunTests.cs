using Broodtide.Phone.Bench;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

public sealed class BenchRunTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 5, 26, 20, 0);

    private static readonly BenchRun Run = BenchRun.Begin([Step(60), Step(90), Step(5)], Start);

    [Fact]
    public void Targets_follow_each_other_from_the_start()
    {
        Assert.Equal(Start + Duration.FromSeconds(60), Run.At(0));
        Assert.Equal(Start + Duration.FromSeconds(150), Run.At(1));
        Assert.Equal(Start + Duration.FromSeconds(155), Run.At(2));
    }

    [Fact]
    public void A_step_done_late_moves_the_later_ones_by_as_much()
    {
        var run = Run.DoneAt(Start + Duration.FromSeconds(75));

        Assert.Equal(1, run.Next);
        Assert.Equal(Start + Duration.FromSeconds(75), run.At(0));
        Assert.Equal(Start + Duration.FromSeconds(165), run.At(1));
        Assert.Equal(Start + Duration.FromSeconds(170), run.At(2));
    }

    [Fact]
    public void Undo_brings_the_old_targets_back()
    {
        var run = Run.DoneAt(Start + Duration.FromSeconds(75)).Undone();

        Assert.Equal(Run.At(0), run.At(0));
        Assert.Equal(Run.At(2), run.At(2));
        Assert.Same(Run, Run.Undone());
    }

    [Fact]
    public void A_late_step_has_less_than_nothing_left()
    {
        Assert.Equal(Duration.FromSeconds(-3), Run.Left(Start + Duration.FromSeconds(63)));
    }

    [Fact]
    public void A_finished_run_takes_no_more()
    {
        var second = Duration.FromSeconds(1);
        var run = Run.DoneAt(Start).DoneAt(Start + second).DoneAt(Start + second + second);

        Assert.True(run.IsFinished);
        Assert.Same(run, run.DoneAt(Start));
    }

    [Fact]
    public void A_step_sounds_once_ten_seconds_before_and_three_times_when_it_is_due()
    {
        var sounds = BenchSounds.For(Run);

        // The last wait is shorter than the warning: it has none.
        Assert.Equal([1, 3, 1, 3, 3], sounds.Select(sound => sound.Beeps));
        Assert.Equal(Run.At(1) - Duration.FromSeconds(10), sounds[2].At);
        Assert.Equal(Run.At(1), sounds[3].At);
    }

    [Fact]
    public void A_run_comes_back_from_what_is_kept_of_it()
    {
        var run = Run.DoneAt(Start + Duration.FromMilliseconds(61234));

        var back = KeptRun.From(run).ToRun();

        Assert.NotNull(back);
        Assert.Equal(run.Steps, back.Steps);
        Assert.Equal(run.Started, back.Started);
        Assert.Equal(run.Done, back.Done);
    }

    [Fact]
    public void More_steps_done_than_there_are_is_no_run()
    {
        Assert.Null((KeptRun.From(Run) with { Done = [1, 2, 3, 4] }).ToRun());
        Assert.Null((KeptRun.From(Run) with { Steps = [] }).ToRun());
    }

    private static BenchStep Step(int seconds) =>
        new(Duration.FromSeconds(seconds), "400 mL sea water", "into the cup", "Poured 400 mL");

    [Fact]
    public void A_finger_that_touches_twice_does_one_step_and_a_second_later_the_next()
    {
        var began = Instant.FromUtc(2026, 5, 20, 18, 0);
        var wait = Duration.FromMinutes(1);
        var run = BenchRun.Begin([new(wait, "a", "", ""), new(wait, "b", "", "")], began);
        var first = began + Duration.FromSeconds(50);
        var once = run.DoneAt(first);
        Assert.Same(once, once.DoneAt(first));
        Assert.Same(once, once.DoneAt(first + Duration.FromMilliseconds(999)));
        Assert.Equal(2, once.DoneAt(first + Duration.FromSeconds(1)).Next);
        // After an undo the same key counts at once, and a clock set back does not lock it.
        Assert.Equal(1, once.Undone().DoneAt(first).Next);
        Assert.Equal(2, once.DoneAt(first - Duration.FromHours(1)).Next);
    }
}
