using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Cli.Sensors;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Cli.Door;

/// <summary>One call: what was said, the journal it is about, and how it is answered.</summary>
internal sealed class Sitting : IAsyncDisposable
{
    private readonly GlobalOptions _global;
    private readonly List<Remark> _wrong = [];
    private SqliteJournal? _journal;
    private Outlook? _outlook;

    public Sitting(
        ParseResult parse,
        GlobalOptions global,
        Surroundings surroundings,
        CancellationToken cancellation
    )
    {
        Parse = parse;
        _global = global;
        Surroundings = surroundings;
        Cancellation = cancellation;
        Clock = surroundings.Clock.GetCurrentInstant();
        Zone = ZoneSaid();
        Now = InstantSaid(global.At, "at") ?? Clock;
        AsKnownAt = InstantSaid(global.AsKnownAt, "as-known-at");
    }

    public ParseResult Parse { get; }

    public Surroundings Surroundings { get; }

    public CancellationToken Cancellation { get; }

    /// <summary>The device's clock.</summary>
    public Instant Clock { get; }

    /// <summary>The instant that counts as now.</summary>
    public Instant Now { get; }

    public Instant? AsKnownAt { get; }

    public DateTimeZone Zone { get; }

    /// <summary>What was wrong with the options every verb understands.</summary>
    public IReadOnlyList<Remark> Wrong => _wrong;

    public bool Json => Parse.GetValue(_global.Json);

    public TextWriter Out => Surroundings.Out;

    public string JournalPath =>
        Parse.GetValue(_global.Journal)
        ?? Surroundings.Variable("BROODTIDE_JOURNAL")
        ?? Path.Combine(Surroundings.DataFolder, "broodtide", "journal.broodtide");

    public Author Author =>
        new(
            Parse.GetValue(_global.Who) ?? Surroundings.Variable("BROODTIDE_KEEPER") ?? Surroundings.UserName
        );

    public Keeper Keeper => new(Author, Surroundings.Clock, Zone, Surroundings.NewId);

    /// <summary>The journal, opened when first asked for; made where there is none.</summary>
    public async Task<SqliteJournal> OpenAsync()
    {
        if (_journal is null)
        {
            if (
                Path.GetDirectoryName(Path.GetFullPath(JournalPath)) is { } folder
                && Parse.GetValue(_global.Journal) is null
            )
            {
                Directory.CreateDirectory(folder);
            }

            _journal = await SqliteJournal.OpenAsync(JournalPath, "cli", Cancellation);
        }

        return _journal;
    }

    /// <summary>Everything that is known, and all that is computed from it.</summary>
    public async Task<Outlook> LookAsync()
    {
        if (_outlook is null)
        {
            var account = await AccountAsync();
            var kept = _journal is null ? [] : await _journal.CheckpointsAsync(Cancellation);
            var alone = Outlook.Of(account, Now, Zone, kept: kept);
            // As it was known then: of sensors nobody wrote down when what was heard.
            var sensors = AsKnownAt is null ? await SensorsBeside.OfAsync(this, alone) : null;
            _outlook = sensors is null ? alone : alone.Renewed(Now, alone.House, sensors);
        }

        return _outlook;
    }

    /// <summary>The same, once it was looked at.</summary>
    public Outlook Looked => _outlook ?? throw new InvalidOperationException("Nothing was looked at yet.");

    /// <summary>Forgets what was looked at, since something was written.</summary>
    public void LookAnew() => _outlook = null;

    /// <summary>Everything that is known.</summary>
    public async Task<Account> AccountAsync()
    {
        // Looking makes no file: a slip in its name would leave an empty journal behind.
        if (_journal is null && !File.Exists(JournalPath))
        {
            return new Account(AsKnownAt);
        }

        var journal = await OpenAsync();
        return Account.Of(await journal.ReadAllAsync(Cancellation), AsKnownAt);
    }

    /// <summary>Makes sentences of remarks, with the names of this journal.</summary>
    public async Task<Saying> SayingAsync() => new(Zone, (await LookAsync()).House);

    /// <summary>Prints a result.</summary>
    public int Answer<T>(T answer, JsonTypeInfo<T> shape, Action<Page> text)
    {
        if (Json)
        {
            Out.WriteLine(JsonSerializer.Serialize(answer, shape));
        }
        else
        {
            var page = new Page(Out);
            text(page);
        }

        return ExitCode.Done;
    }

    /// <summary>Prints that a rule says no.</summary>
    public int Refuse(IReadOnlyList<Remark> why, Saying? saying = null) =>
        No(why, saying, ExitCode.RuleSaysNo, "refused");

    /// <summary>Prints what was not understood.</summary>
    public int NotUnderstood(IReadOnlyList<Remark> why, Saying? saying = null) =>
        No(why, saying, ExitCode.NotUnderstood, "not-understood");

    public async ValueTask DisposeAsync()
    {
        if (_journal is not null)
        {
            await KeepAsync(_journal);
            await _journal.DisposeAsync();
        }
    }

    // For the next call, and only what holds for it: not what was told for another day or as it was known then.
    private async Task KeepAsync(SqliteJournal journal)
    {
        if (Now != Clock || AsKnownAt is not null || _outlook?.TakeCheckpoint() is not { } checkpoint)
        {
            return;
        }

        try
        {
            await journal.KeepAsync([checkpoint], CancellationToken.None);
        }
        catch (StoreUnusableException)
        {
            // It spares time and nothing else: the answer was given already.
        }
    }

    private int No(IReadOnlyList<Remark> why, Saying? saying, int code, string outcome)
    {
        saying ??= new Saying(Zone, _outlook?.House);
        if (Json)
        {
            Out.WriteLine(
                JsonSerializer.Serialize(
                    new NoAnswer(outcome, [.. why.Select(saying.Json)]),
                    CliJson.Default.NoAnswer
                )
            );
        }
        else
        {
            foreach (var remark in why)
            {
                Surroundings.Error.WriteLine(saying.Of(remark));
            }
        }

        return code;
    }

    private DateTimeZone ZoneSaid()
    {
        var name = Parse.GetValue(_global.Zone) ?? Surroundings.Variable("BROODTIDE_ZONE");
        if (name is null)
        {
            return Surroundings.Zone;
        }

        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) is { } zone)
        {
            return zone;
        }

        _wrong.Add(new Remark("zone-unknown", new Argument("typed", name)));
        return Surroundings.Zone;
    }

    private Instant? InstantSaid(Option<string?> option, string field)
    {
        if (Parse.GetValue(option) is not { } text)
        {
            return null;
        }

        var read = WhenText.Parse(text, field, Clock, Zone);
        if (read.Succeeded)
        {
            return read.Value.Latest;
        }

        _wrong.Add(read.Reason);
        return null;
    }
}

/// <summary>Why there is no result.</summary>
internal sealed record NoAnswer(string Outcome, IReadOnlyList<RemarkJson> Reasons);
