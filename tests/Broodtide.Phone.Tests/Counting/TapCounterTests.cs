using AngleSharp.Dom;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Counting;
using Bunit;

namespace Broodtide.Phone.Tests.Counting;

public sealed class TapCounterTests : PhoneContext
{
    private CountDraft _draft = new CountDraft().Of("250", "mL");
    private int _felt;
    private int _finished;

    private IRenderedComponent<TapCounter> Shown() =>
        Render<TapCounter>(parameters =>
            parameters
                .Add(counter => counter.Draft, _draft)
                .Add(counter => counter.DraftChanged, draft => _draft = draft)
                .Add(counter => counter.Tapped, () => _felt++)
                .Add(counter => counter.OnFinish, () => _finished++)
        );

    private void Press(IRenderedComponent<TapCounter> counter, Func<IElement> key)
    {
        key().Click();
        counter.Render(parameters => parameters.Add(it => it.Draft, _draft));
    }

    private static IElement Named(IRenderedComponent<TapCounter> counter, string name) =>
        counter.FindAll("button").Single(button => button.TextContent.Trim() == name);

    [Fact]
    public void Each_tap_adds_one_and_is_felt_and_undo_takes_one()
    {
        var counter = Shown();
        Assert.Equal("–", counter.Find(".tap .n").TextContent);
        Press(counter, () => counter.Find(".tap"));
        Press(counter, () => counter.Find(".tap"));
        Assert.Equal("2", counter.Find(".tap .n").TextContent);
        Assert.Equal(2, _felt);

        Press(counter, () => Named(counter, "One less"));
        Assert.Equal("1", counter.Find(".tap .n").TextContent);
        Assert.Equal(2, _felt);
    }

    [Fact]
    public void The_next_sample_keeps_the_volume_and_the_sums_stand_below()
    {
        var counter = Shown();
        foreach (var seen in new[] { 4, 2, 5 })
        {
            for (var tap = 0; tap < seen; tap++)
            {
                Press(counter, () => counter.Find(".tap"));
            }

            Press(counter, () => Named(counter, "Next sample"));
        }

        Assert.Equal(
            ["first 4", "second 2", "third 5", "fourth –"],
            counter
                .FindAll(".samples-row button")
                .Select(button => string.Join(' ', button.Children.Select(part => part.TextContent)))
        );
        Assert.Equal("true", counter.FindAll(".samples-row button")[3].GetAttribute("aria-current"));
        var sums = counter.Find(".sums").TextContent;
        Assert.Contains("11 in 750\u202fmL, 15 in a litre", sums, StringComparison.Ordinal);
        Assert.Contains("From 2 to 5: no further apart than chance", sums, StringComparison.Ordinal);
    }

    [Fact]
    public void Samples_far_apart_are_said_to_be_and_bigger_ones_are_never_advised()
    {
        _draft = _draft with { Samples = [new(2, "250", "mL"), new(30, "250", "mL")], At = 1 };
        var words = Shown().Find(".sums").TextContent;

        Assert.Contains("From 2 to 30: further apart than chance alone", words, StringComparison.Ordinal);
        Assert.DoesNotContain("bigger", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Samples_of_different_volume_are_compared_by_the_litre()
    {
        _draft = _draft with { Samples = [new(5, "250", "mL"), new(10, "1", "L")], At = 1 };

        Assert.Contains(
            "From 10 in a litre to 20 in a litre",
            Shown().Find(".sums").TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_sample_with_none_in_it_is_said_before_the_next()
    {
        var counter = Shown();
        Press(counter, () => Named(counter, "None in it"));
        Assert.Equal("0", counter.Find(".tap .n").TextContent);
        Assert.Contains("none seen", counter.Find(".tap").TextContent, StringComparison.Ordinal);
        Press(counter, () => Named(counter, "Next sample"));
        Press(counter, () => Named(counter, "Back to the first"));
        Press(counter, () => Named(counter, "Not looked yet"));
        Assert.False(_draft.CanUndo);
    }

    [Fact]
    public void A_count_of_everything_has_no_samples_and_is_finished()
    {
        _draft = new CountDraft { Method = CountMethod.Full };
        var counter = Shown();
        Press(counter, () => counter.Find(".tap"));
        Assert.Empty(counter.FindAll(".samples-row"));
        Press(counter, () => Named(counter, "Finish"));
        Assert.Equal(1, _finished);
    }

    [Fact]
    public async Task A_screen_reader_hears_the_first_at_once_and_then_only_the_latest_in_a_while()
    {
        var line = Render<PoliteLine>(parameters =>
            parameters.Add(it => it.Text, "0").Add(it => it.Pause, TimeSpan.FromMilliseconds(400))
        );
        var heard = new List<string>();
        line.OnMarkupUpdated += (_, _) => heard.Add(line.Find("[role=status]").TextContent);
        Assert.Equal("", line.Find("[role=status]").TextContent);
        foreach (var text in new[] { "1", "2", "3", "4" })
        {
            line.Render(parameters => parameters.Add(it => it.Text, text));
        }

        Assert.Equal("1", line.Find("[role=status]").TextContent);
        await line.WaitForAssertionAsync(
            () => Assert.Equal("4", line.Find("[role=status]").TextContent),
            TimeSpan.FromSeconds(10)
        );
        Assert.Equal(["1", "4"], heard.Distinct());
    }
}
