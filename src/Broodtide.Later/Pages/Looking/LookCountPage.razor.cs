using System.IO.Compression;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Language;
using Broodtide.Phone.Looking;
using Broodtide.Phone.Writing;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Phone.Pages.Looking;

/// <summary>Counting larvae in pictures: chosen, counted, looked over, written.</summary>
public sealed partial class LookCountPage
{
    private enum Phase
    {
        Asking,
        Working,
        Before,
        Counted,
    }

    private static readonly bool?[] Rooms = [true, false, null];

    private readonly ChosenPictures _pictures = new("count");
    private readonly Stack<Markings> _before = new();
    private readonly List<(double X, double Y)> _own = [];
    private PictureCounting _counting = default!;
    private CancellationTokenSource? _running;
    private Phase _phase;
    private VesselId? _vessel;
    private string _setup = "";
    private string _known = "";
    private bool? _inDark;
    private bool _ownFirst;
    private bool _asking;
    private bool _givesAway;
    private string? _address;
    private string _said = "";
    private (CountingStep Step, int At) _step;
    private PictureRefused? _refused;
    private CountedPictures? _counted;
    private CountedPictures? _other;
    private Markings _marks = Markings.OfProgram([]);

    private protected override object Step => (_phase, Written.Count > 0);

    private string Progress =>
        _step.Step == CountingStep.Opening
            ? Words["look.opening", _step.At, _pictures.Count]
            : Words["look.counting"];

    private PictureSeen ShownPicture => _counting.Pictures[_counted!.Count.Shown];

    // One and a half radii of a middling larva, to be seen about it.
    private double Radius
    {
        get
        {
            var areas = _counted!.Count.Marks.Select(mark => mark.Area).Order().ToList();
            return areas.Count > 0 ? 1.5 * Math.Sqrt(areas[areas.Count / 2] / Math.PI) : 0;
        }
    }

    private IReadOnlyList<BoardMark> Board =>
        [
            .. _marks.Marks.Select(mark => new BoardMark(
                mark.X,
                mark.Y,
                Radius,
                mark.Removed is true ? BoardLook.Removed
                    : mark.By is MarkedBy.Person ? BoardLook.Added
                    : BoardLook.Found
            )),
        ];

    private IReadOnlyList<BoardMark> OwnMarks =>
        [.. _own.Select(mark => new BoardMark(mark.X, mark.Y, Radius, BoardLook.Added))];

    private Units.Interval? AtLeast => PictureCounts.AtLeast(Entry().Pictures!);

    private string Of(Remark remark) =>
        Words.Has("say." + remark.Code)
            ? Sayings.Plain(Sayings.Of(remark, Desk.House))
            : Remarks.Of(remark, null, Words, Formats);

    private protected override void Begin() => _counting = new(() => Slicer, Http, Who);

    private protected override void Opened() =>
        _vessel ??= LikeliestWithLarvae is { } vessel ? new VesselId(vessel) : null;

    private protected override void Left()
    {
        base.Left();
        _running?.Cancel();
        Hide();
        _pictures.Dispose();
    }

    private void Chosen()
    {
        _refused = null;
        if (_pictures.Count == 1 || _pictures.Count >= Science.Imaging.Spots.BurstSpots.FewestFrames)
        {
            StateHasChanged();
        }
    }

    private async Task Count()
    {
        if (_phase == Phase.Working || _pictures.Count == 0)
        {
            return;
        }

        Anew();
        (_phase, _refused) = (Phase.Working, null);
        using var running = new CancellationTokenSource();
        _running = running;
        try
        {
            var counted = await _counting.CountHereAsync(
                _pictures,
                (step, at) =>
                {
                    _step = (step, at);
                    StateHasChanged();
                },
                running.Token
            );
            (_counted, _refused) = (counted, _counting.Refused);
        }
        catch (OperationCanceledException)
        {
            _counted = null;
        }
        finally
        {
            _running = null;
        }

        if (_counted is null)
        {
            _phase = Phase.Asking;
            return;
        }

        _marks = Markings.OfProgram(_counted.Count.Marks);
        _address = _pictures.Show(_counted.Count.Shown);
        _phase = _ownFirst ? Phase.Before : Phase.Counted;
        _ = AskServerAsync();
    }

    // The phone's count stands; the server's comes beside it, if it comes.
    private async Task AskServerAsync()
    {
        var mine = _counted;
        _asking = Who.MayShare;
        var other = await _counting.CountThereAsync(_pictures, CancellationToken.None);
        if (ReferenceEquals(mine, _counted) && _counted is not null)
        {
            (_other, _asking) = (other, false);
            await InvokeAsync(StateHasChanged);
        }
    }

    private void TakeOther()
    {
        (_counted, _other) = (_other, _counted);
        _before.Clear();
        _marks = Markings.OfProgram(_counted!.Count.Marks);
        Hide();
        _address = _pictures.Show(_counted.Count.Shown);
    }

    private void MarkOwn(BoardTap tap)
    {
        if (tap.Mark is { } mark)
        {
            _own.RemoveAt(mark);
        }
        else
        {
            _own.Add((tap.X, tap.Y));
        }
    }

    private void Reveal()
    {
        // A finger's mark lies within two of the things' own radii, a picture's hundredth at least.
        var reach = Math.Max(4 / 3.0 * Radius, Math.Max(ShownPicture.Across, ShownPicture.Down) / 100.0);
        _marks = Markings.OfBoth(_own, _counted!.Count.Marks, reach);
        _phase = Phase.Counted;
    }

    private void Mark(BoardTap tap)
    {
        Forget();
        _before.Push(_marks);
        _marks = tap.Mark is { } mark ? _marks.Touched(mark) : _marks.With(tap.X, tap.Y);
    }

    private void Looked(bool looked)
    {
        _before.Push(_marks);
        _marks = _marks with { Person = looked ? PersonLooked.WithMarks : PersonLooked.No };
    }

    private void UndoMark() => _marks = _before.Pop();

    private CountMade Entry() =>
        PictureCounts.Entry(
            new(
                _vessel ?? default,
                _setup,
                int.TryParse(_known, out var known) && known >= 0 ? known : null,
                InDark: _inDark
            ),
            _counting.Pictures,
            _counted!.Count,
            _marks,
            _other is null ? [_counted.Program] : [_counted.Program, _other.Program]
        );

    // A file for the keeper; nothing is sent.
    private async Task SaveLabelled()
    {
        var files = new List<byte[]?>();
        for (var at = 0; at < _pictures.Count; at++)
        {
            files.Add((await _pictures.FileAsync(at)) is { Succeeded: true } file ? file.Value.Bytes : null);
        }

        var (set, _) = LabelledSet.Of([new(Entry().Pictures!, files)]);
        using var packed = new MemoryStream();
        using (var archive = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in set)
            {
                await using var part = await archive
                    .CreateEntry(file.Name, CompressionLevel.NoCompression)
                    .OpenAsync();
                await part.WriteAsync(file.Bytes);
            }
        }

        Browser.Files.Download(
            $"marked-{_counting.Pictures[_counted!.Count.Shown].Sha256[..12]}.zip",
            "application/zip",
            packed.ToArray()
        );
    }

    private Task Write() => _vessel is null ? Task.CompletedTask : WriteAsync(Entry(), Happened.At(Now));

    private protected override void IsWritten(Fact fact)
    {
        var count = (CountMade)fact;
        LookedAt.Keep(count.Vessel);
        _said = Words["count.written", NameOf(count.Vessel), count.Samples[0].Seen];
    }

    private protected override void Undone() => _phase = Phase.Counted;

    private void Another()
    {
        ClearWritten();
        Back();
    }

    private void Back()
    {
        Anew();
        _pictures.Dispose();
        _phase = Phase.Asking;
    }

    private void Cancel() => _running?.Cancel();

    private void Anew()
    {
        Forget();
        Hide();
        _before.Clear();
        _own.Clear();
        (_counted, _other, _asking, _givesAway) = (null, null, false, false);
    }

    private void Hide()
    {
        if (_address is not null)
        {
            ChosenPictures.Hide(_address);
            _address = null;
        }
    }
}
