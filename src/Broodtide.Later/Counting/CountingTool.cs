using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.AtTheBench;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Writing;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Species;
using Microsoft.AspNetCore.Components;
using NodaTime;

namespace Broodtide.Phone.Counting;

/// <summary>
/// What counting and staging share: the screen stays on, larvae have a vessel and a crossing, and what was tapped is
/// written as any entry is, the improbable asked back once.
/// </summary>
public abstract class CountingTool : BenchTool
{
    // After an hour a count that was not written is not taken up again without a word.
    private protected static readonly Duration Fresh = Duration.FromHours(1);

    private Asking? _asking;
    private bool _writing;
    private object? _shown;
    private House? _house;
    private HouseProfiles? _profiles;
    private VesselId? _stagesOf;
    private ImmutableArray<ProfileStage> _stages;

    [Inject]
    private Screen Screen { get; set; } = default!;

    [Inject]
    private protected Drafts Drafts { get; set; } = default!;

    [Inject]
    private protected Words Said { get; set; } = default!;

    [Inject]
    private protected Formats Shown { get; set; } = default!;

    /// <summary>The vessel one comes from.</summary>
    [SupplyParameterFromQuery]
    public string? Vessel { get; set; }

    /// <summary>The step that the page shows; another one is another page to who hears it.</summary>
    private protected abstract object Step { get; }

    /// <summary>Whether the screen stays on.</summary>
    private protected Awake Awake { get; private set; } = Awake.Held;

    /// <summary>What to say of a screen that may go dark; none while it stays on.</summary>
    private protected string? AwakeCode =>
        Awake switch
        {
            Awake.Refused => "gathering.awake.refused",
            Awake.Absent => "gathering.awake.absent",
            _ => null,
        };

    /// <summary>What is asked back before it is written.</summary>
    private protected Question? Question { get; private set; }

    /// <summary>Why it cannot be written as it stands.</summary>
    private protected Remark? Impossible { get; private set; }

    private protected Guid? Asked => Guid.TryParse(Vessel, out var id) ? id : null;

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            Awake = await Screen.StayAwake(true);
            StateHasChanged();
        }
        else if (!Equals(_shown, Step))
        {
            Glue.FocusTitle();
        }

        _shown = Step;
    }

    private protected override void Left() => _ = Screen.StayAwake(false);

    private protected Instant Now => Clock.GetCurrentInstant();

    // Names and profiles are at hand; what stands in the vessels would first have to be worked out, amid the taps.
    private protected string NameOf(VesselId? vessel) =>
        (vessel is { } id ? Desk.House.Vessel(id).Name : null) ?? Said["crossing.theVessel"];

    /// <summary>The stages of the larvae in a vessel.</summary>
    private protected ImmutableArray<ProfileStage> StagesIn(VesselId? vessel)
    {
        if (!ReferenceEquals(_house, Desk.House) || _profiles is null || _stagesOf != vessel)
        {
            (_house, _stagesOf) = (Desk.House, vessel);
            _profiles = new HouseProfiles(_house, Now);
            _stages = _profiles.Of(_house.Vessel(vessel ?? default)).Stages;
        }

        return _stages;
    }

    private protected string NameOf(CohortId? cohort) =>
        cohort is { } id
            ? new Names(Desk.House, Said, Shown).Of(Thing.Cohort, id.Value)
            : Said["count.cohort.all"];

    /// <summary>The crossings whose larvae live in a vessel, with the choice of all of them first.</summary>
    private protected List<CohortId?> CohortsIn(VesselId? vessel) =>
        vessel is { } id
            ?
            [
                null,
                .. Desk
                    .House.Cohorts.Where(cohort =>
                        cohort.MergedInto is null && cohort.VesselsAt(Now).Contains(id)
                    )
                    .Select(cohort => (CohortId?)cohort.Id),
            ]
            : [null];

    /// <summary>The vessel to begin with: the one come from, else the one last looked at.</summary>
    private protected Guid? Likeliest =>
        Asked is { } asked && Desk.House.Vessels.Any(vessel => vessel.Id.Value == asked)
            ? asked
            : LookedAt.Likeliest(Desk.House)?.Id.Value;

    /// <summary>The same where larvae are wanted: of the vessels that hold some the one last looked at, else the last crossed into.</summary>
    private protected Guid? LikeliestWithLarvae
    {
        get
        {
            var holding = Desk
                .House.Cohorts.Where(cohort => cohort.MergedInto is null)
                .OrderBy(cohort => cohort.Crossed?.Middle ?? Instant.MinValue)
                .SelectMany(cohort => cohort.VesselsAt(Now))
                .Select(vessel => vessel.Value)
                .ToList();
            return Asked is not null || Likeliest is not { } likeliest || holding.Contains(likeliest)
                    ? Likeliest
                : holding.Count > 0 ? holding[^1]
                : likeliest;
        }
    }

    private protected Happened When(long? last) =>
        Happened.At(last is { } at ? Instant.FromUnixTimeMilliseconds(at) : Now);

    /// <summary>Writes a fact, unless something is asked back first.</summary>
    private protected Task WriteAsync(Fact fact, Happened happened)
    {
        _asking = new Asking(fact, happened);
        return Go();
    }

    private protected Task AnswerAsync(bool likelier)
    {
        if (_asking is null || Question is null)
        {
            return Task.CompletedTask;
        }

        if (likelier)
        {
            _asking.AsLikelier(Question);
        }
        else
        {
            _asking.AsTyped(Question);
        }

        return Go();
    }

    private protected void Forget() => (_asking, Question, Impossible) = (null, null, null);

    /// <summary>What is written along with it, and taken back with it.</summary>
    private protected virtual IReadOnlyList<Draft> Besides(Keeper keeper, Happened happened) => [];

    /// <summary>It is on the disk of this phone.</summary>
    private protected abstract void IsWritten(Fact fact);

    private async Task Go()
    {
        if (_writing || _asking is null)
        {
            return;
        }

        _writing = true;
        try
        {
            await Desk.OpenAsync();
            (Question, Impossible) = (_asking.Next(Desk.House, Now), null);
            if (Question is not null)
            {
                return;
            }

            Impossible = _asking.Fact.Impossible();
            if (Impossible is null)
            {
                var keeper = Desk.Keeper;
                await WriteAsync([
                    keeper.Write(_asking.Fact, _asking.Happened),
                    .. Besides(keeper, _asking.Happened),
                ]);
                IsWritten(_asking.Fact);
                _asking = null;
            }
        }
        finally
        {
            _writing = false;
        }
    }
}
