using Broodtide.Phone.Browser;

namespace Broodtide.Phone.Looking;

/// <summary>
/// A short video that was chosen on this page, decoded by the browser alone. The file stays where it lies; one frame at a
/// time is handed out.
/// </summary>
public sealed class ChosenClip(string key) : IDisposable
{
    /// <summary>How long it lasts, seconds; 0 while none is open.</summary>
    public double Seconds { get; private set; }

    /// <summary>Pixels along the longer side.</summary>
    public int LongestSide { get; private set; }

    /// <summary>Opens what a field for files holds; whether this browser can show it.</summary>
    public async Task<bool> TakeAsync(string fieldId)
    {
        await LookingGlue.Load();
        Seconds = 0;
        if (LookingGlue.Take(key, fieldId, add: false) == 0)
        {
            return false;
        }

        using var clip = await LookingGlue.OpenClip(key);
        if (clip is null)
        {
            LookingGlue.LetGo(key);
            return false;
        }

        Seconds = clip.GetPropertyAsDouble("seconds");
        LongestSide = Math.Max(clip.GetPropertyAsInt32("across"), clip.GetPropertyAsInt32("down"));
        return true;
    }

    /// <summary>The frame at a time, made smaller; none if the browser cannot have it.</summary>
    public async Task<DecodedPicture?> FrameAsync(double seconds, int longestSide)
    {
        using var decoded = await LookingGlue.ClipFrame(key, seconds, longestSide);
        return decoded is null ? null : DecodedPicture.FromScript(decoded);
    }

    public void Dispose()
    {
        if (Seconds > 0)
        {
            LookingGlue.CloseClip(key);
            LookingGlue.LetGo(key);
            Seconds = 0;
        }
    }
}
