using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Phone.Pages.Alive;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Recording;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Tests.Alive;

public sealed class AliveViewTests : PhoneContext
{
    private static readonly Instant Evening = Instant.FromUtc(2026, 5, 20, 18, 30);
    private static readonly Lazy<Task<(Outlook Outlook, BroodId Brood)>> Worked = new(WorkedOut);

    // Slices of work end here until a test lets them go on.
    private readonly TaskCompletionSource _rest = new();

    public AliveViewTests()
    {
        JSInterop.SetupModule("./js/pictures.js").Mode = JSRuntimeMode.Loose;
        Services.AddSingleton<PageWork>();
        Services.AddTransient(_ => new Slicer(TimeSpan.Zero, () => _rest.Task, TimeProvider.System));
    }

    [Fact]
    public async Task The_page_is_there_before_the_estimate_and_says_quietly_that_it_comes()
    {
        var (outlook, brood) = await InTheSea();
        var worked = new TaskCompletionSource();
        var page = Render<AliveView>(it =>
            it.Add(p => p.Outlook, outlook).Add(p => p.Brood, brood).Add(p => p.Worked, worked.SetResult)
        );
        Assert.Contains(
            "is being worked out",
            page.Find("[role=status]").TextContent,
            StringComparison.Ordinal
        );
        Assert.Empty(page.FindAll("table"));
        Assert.False(worked.Task.IsCompleted);
        Assert.True(Services.GetRequiredService<PageWork>().IsBusy);

        _rest.SetResult();
        await worked.Task.WaitAsync(TimeSpan.FromMinutes(2), Xunit.TestContext.Current.CancellationToken);
        Assert.Empty(page.FindAll("[role=status]"));
        Assert.NotNull(outlook.EstimateAtHand(brood));
        page.WaitForAssertion(() => Assert.False(Services.GetRequiredService<PageWork>().IsBusy));
    }

    [Fact]
    public async Task It_says_how_many_in_words_the_window_the_stages_and_what_would_help_most()
    {
        var (outlook, brood) = await Worked.Value;
        var estimate = outlook.EstimateAtHand(brood)!;
        var page = View(outlook, brood, estimate);
        var alive = estimate.All.Alive;

        Assert.Contains(
            $"About {alive.Middle}, {alive.Low} to {alive.High}.",
            Plain(page),
            StringComparison.Ordinal
        );
        Assert.Contains("would narrow", Plain(page), StringComparison.Ordinal);
        Assert.Contains("juveniles to expect", Plain(page), StringComparison.Ordinal);
        Assert.Equal(
            ["the first", "half", "nine in ten"],
            page.FindAll("table.ways:not(.right) th").Select(head => head.TextContent)
        );
        Assert.Equal(
            estimate.All.StageShares.Count(share => share >= 0.01),
            page.FindAll("table.stages-now tr").Count
        );
        Assert.DoesNotContain("alive.", page.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("say.", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task How_we_know_opens_with_the_method_what_is_assumed_and_the_sources()
    {
        var (outlook, brood) = await Worked.Value;
        var page = View(outlook, brood, outlook.EstimateAtHand(brood)!);
        Assert.Empty(page.FindAll(".how"));

        await page.Find("button.ask").ClickAsync(new());

        var how = page.Find(".how").TextContent;
        Assert.Contains("weighed together", how, StringComparison.Ordinal);
        Assert.Contains("docs/science/alive.md", how, StringComparison.Ordinal);
        Assert.Contains("28–62", how, StringComparison.Ordinal);
        Assert.DoesNotContain("species.", how, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_rough_estimate_has_no_middle()
    {
        var (outlook, brood) = await Worked.Value;
        var estimate = outlook.EstimateAtHand(brood)! with { IsRough = true };
        var page = View(outlook, brood, estimate);
        var (low, high) = (estimate.All.Alive.Low, estimate.All.Alive.High);

        Assert.Contains($"Rough: between {low} and {high}", Plain(page), StringComparison.Ordinal);
        Assert.DoesNotContain($"About {estimate.All.Alive.Middle}", Plain(page), StringComparison.Ordinal);
        Assert.Contains("rough", page.Find("button.ask .q").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task None_expected_alive_is_never_said_to_be_all_dead()
    {
        var (outlook, brood) = await Worked.Value;
        var estimate = outlook.EstimateAtHand(brood)!;
        foreach (var alive in new[] { Interval.FromPoints(0, 0, 3), Interval.Exactly(0) })
        {
            var none = new AlivePoint(estimate.Now, alive, [.. estimate.All.StageShares.Select(_ => 0.0)]);
            var page = View(
                outlook,
                brood,
                estimate with
                {
                    All = none,
                    Broods = [estimate.Broods[0] with { Now = none }],
                    Juveniles = Interval.Exactly(0),
                }
            );
            Assert.Contains("may live. Few seen is not few alive", Plain(page), StringComparison.Ordinal);
            Assert.DoesNotMatch("(?i)all dead|discard|throw", page.Markup);
        }
    }

    [Theory]
    [InlineData(
        HelpfulKind.FullCount,
        0.91,
        0.1,
        "A full count would narrow this most: by about nine tenths.",
        "count"
    )]
    [InlineData(
        HelpfulKind.TenStaged,
        0.1,
        0.5,
        "Ten larvae staged would narrow the days of settlement most: by about half.",
        "stages"
    )]
    [InlineData(HelpfulKind.FourAliquots, 0.02, 0.01, "No single look would narrow this much now.", "count")]
    public async Task What_helps_most_is_one_sentence_and_leads_to_its_bench(
        HelpfulKind kind,
        double alive,
        double days,
        string said,
        string bench
    )
    {
        var (outlook, brood) = await Worked.Value;
        var page = View(
            outlook,
            brood,
            outlook.EstimateAtHand(brood)! with
            {
                WhatHelps = [new(kind, alive, days), new(HelpfulKind.DetectionCheck, 0.01, 0.01)],
            }
        );
        Assert.Contains(said, Plain(page), StringComparison.Ordinal);
        Assert.StartsWith(
            $"{bench}?vessel=",
            page.Find(".keys a").GetAttribute("href"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_does_not_agree_is_said_beside_it()
    {
        var (outlook, brood) = await Worked.Value;
        var estimate = outlook.EstimateAtHand(brood)! with
        {
            Conflicts = [new Remark("count-aliquot-without-volume")],
        };
        var page = View(outlook, brood, estimate);
        Assert.Contains(
            "Samples without a volume were left out",
            page.Find(".mind").TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Of_a_run_that_was_ended_it_says_how_many_may_still_have_lived()
    {
        var (outlook, brood) = await Worked.Value;
        var page = Render<AliveView>(it =>
            it.Add(p => p.Outlook, outlook).Add(p => p.Brood, brood).Add(p => p.EndedAt, outlook.Now)
        );
        Assert.Contains("may still have lived", Plain(page), StringComparison.Ordinal);
        Assert.Empty(page.FindAll("table"));
    }

    // Not the outlook's own estimate, so that what a test says of it is shown.
    private IRenderedComponent<AliveView> View(Outlook outlook, BroodId brood, PopulationEstimate estimate)
    {
        var fresh = Outlook.Of(outlook.House.Account, outlook.Now, outlook.Zone);
        return Render<AliveView>(it =>
            it.Add(p => p.Outlook, fresh).Add(p => p.Brood, brood).Add(p => p.Lately, estimate)
        );
    }

    private static string Plain(IRenderedComponent<AliveView> page) =>
        string.Join(
            ' ',
            page.Nodes.Select(node => node.TextContent)
                .SelectMany(text => text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        );

    private static async Task<(Outlook, BroodId)> WorkedOut()
    {
        var (outlook, brood) = await InTheSea();
        _ = outlook.EstimateOf(outlook.PopulationOf(brood)!);
        return (outlook, brood);
    }

    private static async Task<(Outlook, BroodId)> InTheSea()
    {
        var zone = DateTimeZone.Utc;
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var entries = await journal.AppendAsync([.. InventedHouse.Drafts(Evening, zone)]);
        var outlook = Outlook.Of(Account.Of(entries), Evening, zone);
        return (outlook, outlook.BroodsUnderWay.First(brood => brood.Crossings.Count > 0).Id);
    }
}
