using System.Globalization;
using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Language;
using Broodtide.Phone.Looking;
using Broodtide.Phone.Writing;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Phone.Pages.Looking;

/// <summary>The length of larvae in pictures: a scale, then larva after larva, then written.</summary>
public sealed partial class LookLengthPage
{
    // The longest side that is measured in on the phone, pixels.
    private const int LongestSide = 1_000;

    // A finger on a picture shown whole is good to about two pixels of the screen, which shows some 350 across.
    private const double TapOfSide = 1 / 175.0;

    // A scale said as a number is taken as good to half a per cent, as on the command line.
    private const double SaidToShare = 0.005;

    private static readonly ScaleBy[] Ways = [ScaleBy.Ruler, ScaleBy.Taps, ScaleBy.Number];

    private readonly ChosenPictures _pictures = new("length");
    private readonly List<(double X, double Y)> _taps = [];
    private readonly List<MeasuredValue> _lengths = [];
    private IReadOnlyList<PictureLine> _ticks = [];
    private CancellationTokenSource? _running;
    private DecodedPicture? _picture;
    private readonly HashSet<string> _hashes = [];
    private string? _hash;
    private string? _address;
    private ScaleBy _way;
    private string _distance = "";
    private Remark? _refused;
    private LengthFound? _found;
    private bool _tracing;
    private VesselId? _vessel;
    private CohortId? _cohort;
    private string _said = "";

    // Micrometres a pixel of the whole pictures, and their shape: the scale holds for no other.
    private Interval? _scale;
    private GridShape? _scaledShape;

    /// <summary>A kept photo to begin with, by its hash.</summary>
    [SupplyParameterFromQuery]
    public string? Photo { get; set; }

    private protected override object Step => (_running is not null, _scale is null, Written.Count > 0);

    private RunId? RunOf =>
        Desk
            .House.Cohorts.Where(cohort => _vessel is { } vessel && cohort.VesselsAt(Now).Contains(vessel))
            .Select(cohort => cohort.Brood is { } brood ? Desk.House.RunOf(brood)?.Id : null)
            .FirstOrDefault(run => run is not null);

    private List<BoardMark> TapMarks =>
        _taps.ConvertAll(tap => new BoardMark(tap.X, tap.Y, 1.5 * TapPixels, BoardLook.Added));

    private string Lines
    {
        get
        {
            var path = new StringBuilder();
            foreach (var tick in _found is null ? _ticks : [])
            {
                path.Append(
                    CultureInfo.InvariantCulture,
                    $"M{tick.FromX + 0.5:0.#} {tick.FromY + 0.5:0.#}L{tick.ToX + 0.5:0.#} {tick.ToY + 0.5:0.#}"
                );
            }

            foreach (var ((x, y), at) in (_found?.Axis ?? []).Select((place, at) => (place, at)))
            {
                path.Append(
                    CultureInfo.InvariantCulture,
                    $"{(at == 0 ? 'M' : 'L')}{x + 0.5:0.#} {y + 0.5:0.#}"
                );
            }

            return path.ToString();
        }
    }

    private static string Um(double micrometres) =>
        micrometres.ToString("0.####", CultureInfo.InvariantCulture);

    private string Of(Remark remark) =>
        Words.Has("say." + remark.Code)
            ? Sayings.Plain(Sayings.Of(remark, Desk.House))
            : Remarks.Of(remark, null, Words, Formats);

    private protected override void Opened() =>
        _vessel ??= LikeliestWithLarvae is { } vessel ? new VesselId(vessel) : null;

    private protected override void Left()
    {
        base.Left();
        _running?.Cancel();
        Hide();
        _pictures.Dispose();
    }

    private Task ReadLarva() =>
        Work(async cancel =>
        {
            (_found, _ticks, _tracing) = (null, [], false);
            _taps.Clear();
            if (!await Open())
            {
                return;
            }

            if (_scaledShape is { } shape && _picture!.Whole != shape)
            {
                _refused = new Remark("length-scale-of-another-size");
                Hide();
                _picture = null;
                return;
            }

            await Find(null, cancel);
        });

    private Task Tapped(BoardTap tap)
    {
        if (_tracing)
        {
            _taps.Add((tap.X, tap.Y));
            return Task.CompletedTask;
        }

        return Work(cancel => Find((tap.X, tap.Y), cancel));
    }

    private async Task Find((double X, double Y)? at, CancellationToken cancel)
    {
        var found = await Slicer.Last(
            LarvaLength.Steps(_picture!.ToGrey(), _picture.Shape, Here, at),
            cancel
        );
        (_found, _refused) = (found?.Succeeded is true ? found.Value : null, found?.Reason);
    }

    private Interval Here => _scale!.Value.Scaled(_picture!.Reduced);

    private void Trace()
    {
        (_tracing, _found) = (!_tracing, null);
        _taps.Clear();
    }

    private void Traced()
    {
        var found = LarvaLength.Tapped(_taps, TapPixels, Here);
        (_found, _refused) = (found.Succeeded ? found.Value : null, found.Reason);
        _tracing = false;
    }

    private void KeepLength()
    {
        // Tenths of a micrometre are more than any interval earns.
        static double Tenth(double micrometres) => Math.Round(micrometres, 1);
        var length = _found!.Micrometres;
        _lengths.Add(new(Tenth(length.Middle), Tenth(length.Low), Tenth(length.High)));
        _hashes.Add(_hash ?? "");
        _found = null;
    }

    private async Task Work(Func<CancellationToken, Task> work)
    {
        if (_running is not null)
        {
            return;
        }

        using var running = new CancellationTokenSource();
        (_running, _refused) = (running, null);
        StateHasChanged();
        try
        {
            await work(running.Token);
        }
        catch (OperationCanceledException)
        {
            // The keeper stopped it: back to where it was.
        }
        finally
        {
            _running = null;
        }
    }

    private async Task<bool> Open()
    {
        Hide();
        _picture = null;
        if (_pictures.Count == 0)
        {
            return false;
        }

        var file = await _pictures.FileAsync(0);
        var decoded = file.Succeeded ? await _pictures.DecodeAsync(0, LongestSide) : null;
        _refused = file.Reason ?? decoded?.Reason;
        if (decoded is not { Succeeded: true })
        {
            return false;
        }

        (_picture, _hash) = (decoded.Value, file.Value.Sha256);
        _address = _pictures.Show(0);
        return true;
    }

    // A photo of the journal that is on this phone.
    private async Task FromJournal()
    {
        if (Photo is { Length: > 0 } hash && await Store.ReadAsync(hash) is { } bytes)
        {
            Photo = null;
            await _pictures.PutAsync("photo.jpg", bytes);
            await ReadLarva();
        }
        else
        {
            _refused = new Remark("photo-not-here");
        }
    }

    private async Task Write()
    {
        if (_vessel is { } vessel && _lengths.Count > 0)
        {
            await WriteAsync(
                new LarvaeMeasured(
                    vessel,
                    [.. _lengths],
                    Cohort: _cohort,
                    Scale: _way,
                    Picture: _hashes.Count == 1 ? _hash : null
                ),
                Happened.At(Now)
            );
        }
    }

    private protected override void IsWritten(Fact fact)
    {
        var measured = (LarvaeMeasured)fact;
        LookedAt.Keep(measured.Vessel);
        _said = Words["look.length.written", NameOf(measured.Vessel), measured.Micrometres!.Count];
        _lengths.Clear();
        _hashes.Clear();
    }

    private void Another()
    {
        ClearWritten();
        Forget();
        Hide();
        (_picture, _found, _ticks) = (null, null, []);
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
