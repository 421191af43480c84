using Broodtide.Domain.Larvae;
using Broodtide.Phone.Counting;
using NodaTime;

namespace Broodtide.Phone.Tests.Counting;

public sealed class DraftsTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 5, 20, 18, 0);
    private readonly Dictionary<string, string> _store = [];

    private Drafts Drafts =>
        new(
            _store.GetValueOrDefault,
            (name, text) =>
            {
                if (text is null)
                {
                    _store.Remove(name);
                }
                else
                {
                    _store[name] = text;
                }

                return true;
            }
        );

    [Fact]
    public void A_count_comes_back_as_it_was_kept()
    {
        var draft = new CountDraft
        {
            Vessel = Guid.CreateVersion7(),
            Cohort = Guid.CreateVersion7(),
            Method = CountMethod.Aliquot,
            InDark = false,
        }
            .Of("0,25", "L")
            .Tapped(Now)
            .Next()
            .NoneSeen(Now)
            .Next();
        Drafts.Count.Keep(draft);

        var back = Drafts.Count.Recall()!;

        Assert.Equal(draft.Samples, back.Samples);
        Assert.Equal(draft with { Samples = back.Samples }, back);
    }

    [Fact]
    public void Staged_larvae_come_back_in_their_order()
    {
        Drafts.Stages.Keep(
            new StageDraft().Tapped("Z5", Now).Tapped(StageDraft.LeftOut, Now).Tapped("Z4", Now)
        );

        Assert.Equal(["Z5", StageDraft.LeftOut, "Z4"], Drafts.Stages.Recall()!.Taps);
    }

    [Fact]
    public void What_is_forgotten_is_gone_and_what_cannot_be_read_is_none()
    {
        Drafts.Count.Keep(new CountDraft().Tapped(Now));
        Drafts.Count.Forget();
        Assert.Null(Drafts.Count.Recall());

        foreach (
            var text in new[]
            {
                "",
                "{",
                "[]",
                "null",
                """{"samples":[]}""",
                """{"samples":[{"seen":3,"volume":"","unit":""}],"at":4}""",
                """{"samples":[{"seen":-3,"volume":"","unit":""}],"at":0}""",
                """{"samples":null}""",
                """{"method":"telepathy"}""",
            }
        )
        {
            _store["draft.count"] = text;
            Assert.Null(Drafts.Count.Recall());
        }
    }

    [Fact]
    public void A_store_that_takes_nothing_is_known()
    {
        var drafts = new Drafts(_ => null, (_, _) => false);
        drafts.Count.Keep(new CountDraft().Tapped(Now));

        Assert.False(drafts.Count.IsKept);
    }
}
