using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>A phone with the real journal and the real meeting, over rows and a road that are played.</summary>
internal sealed class ModelPhone : IDisposable
{
    private readonly Func<Visitor, string, byte[], Task<byte[]>> _house;
    private readonly bool _liesOfTaking;
    private readonly OnePen _pen = new();
    private PhoneMeeting _meeting;

    private ModelPhone(
        Func<Visitor, string, byte[], Task<byte[]>> house,
        Visitor visitor,
        ModelClock clock,
        bool liesOfTaking
    )
    {
        _house = house;
        _liesOfTaking = liesOfTaking;
        (Visitor, Clock) = (visitor, clock);
        (Journal, Link, _meeting) = Start();
    }

    public Visitor Visitor { get; private set; }

    public ModelClock Clock { get; }

    public MemoryRows Rows { get; private set; } = new();

    public PhoneJournal Journal { get; private set; }

    public ModelLink Link { get; private set; }

    /// <summary>What happens on the road; nothing unless told otherwise.</summary>
    public Func<OnTheWay> Luck { get; set; } = () => OnTheWay.Well;

    public static async Task<ModelPhone> MakeAsync(
        Func<Visitor, string, byte[], Task<byte[]>> house,
        Visitor visitor,
        ModelClock clock,
        bool liesOfTaking = false
    )
    {
        var phone = new ModelPhone(house, visitor, clock, liesOfTaking);
        await phone.Journal.OpenAsync();
        await phone.Journal.BelongsTo(visitor.Person);
        return phone;
    }

    public void Dispose() => _pen.Dispose();

    /// <summary>The app is ended and opened again; what is on the disk is what it has.</summary>
    public async Task RestartAsync(MemoryRows? putBack = null)
    {
        Rows = putBack ?? Rows;
        (Journal, Link, _meeting) = Start();
        await Journal.OpenAsync();
    }

    public async Task HandToAsync(Visitor visitor)
    {
        Visitor = visitor;
        await Journal.BelongsTo(visitor.Person);
    }

    public async Task<MeetingOutcome> MeetAsync() => await _meeting.RunAsync(await Journal.ReadAllAsync());

    public async Task<IReadOnlyList<Entry>> NoteAsync(params string[] texts)
    {
        var keeper = Keeper;
        return await Journal.AppendAsync([.. texts.Select(text => keeper.Write(new NoteWritten(text)))]);
    }

    public async Task<Entry> CorrectAsync(EntryId target, CorrectionKind kind)
    {
        var now = Clock.GetCurrentInstant();
        var draft = new Draft(
            new EntryId(Guid.CreateVersion7()),
            new Author(Visitor.Name),
            now,
            "Etc/UTC",
            Happened.At(now),
            kind is CorrectionKind.Replaces ? new NoteWritten("better") : new EntryTakenBack(),
            new Correction(kind, target)
        );
        return (await Journal.AppendAsync([draft]))[0];
    }

    private Keeper Keeper => new(new Author(Visitor.Name), Clock, DateTimeZone.Utc, Guid.CreateVersion7);

    private (PhoneJournal Journal, ModelLink Link, PhoneMeeting Meeting) Start()
    {
        var journal = new PhoneJournal(Rows, _pen);
        var link = new ModelLink(_house, () => Visitor, () => Luck(), _liesOfTaking);
        return (journal, link, new PhoneMeeting(link, journal, Clock));
    }
}
