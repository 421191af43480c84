using System.Runtime.InteropServices.JavaScript;

namespace Broodtide.Phone.Browser;

/// <summary>The script module, one member for each thing it offers; its own comments say what each does.</summary>
internal static partial class Glue
{
    private const string Module = "broodtide";

    public static Task Load() => JSHost.ImportAsync(Module, "../js/broodtide.js");

    [JSImport("give", Module)]
    internal static partial JSObject Give([JSMarshalAs<JSType.MemoryView>] Span<byte> bytes);

    [JSImport("take", Module)]
    internal static partial void Take(JSObject bytes, [JSMarshalAs<JSType.MemoryView>] Span<byte> target);

    [JSImport("readSetting", Module)]
    internal static partial string? ReadSetting(string name);

    [JSImport("writeSetting", Module)]
    internal static partial bool WriteSetting(string name, string? value);

    [JSImport("setGround", Module)]
    internal static partial void SetGround(string ground);

    [JSImport("phoneSpeaks", Module)]
    internal static partial string PhoneSpeaks();

    [JSImport("setLanguage", Module)]
    internal static partial void SetLanguage(string language);

    [JSImport("openAnew", Module)]
    internal static partial void OpenAnew();

    [JSImport("firstPageStands", Module)]
    internal static partial void FirstPageStands();

    [JSImport("keepCopy", Module)]
    internal static partial void KeepCopy();

    [JSImport("timeZone", Module)]
    internal static partial string TimeZone();

    [JSImport("openStore", Module)]
    internal static partial Task OpenStore();

    [JSImport("whenStore", Module)]
    internal static partial void WhenStore([JSMarshalAs<JSType.Function<JSType.String>>] Action<string> told);

    [JSImport("append", Module)]
    internal static partial Task<int> Append(JSObject rows);

    [JSImport("probe", Module)]
    internal static partial Task<bool> Probe(int bytes);

    [JSImport("readAll", Module)]
    internal static partial Task<JSObject> ReadAll();

    [JSImport("readWaiting", Module)]
    internal static partial Task<JSObject> ReadWaiting();

    [JSImport("countWaiting", Module)]
    internal static partial Task<int> CountWaiting();

    [JSImport("readAfter", Module)]
    internal static partial Task<JSObject> ReadAfter(JSObject replica, double seq, int most);

    [JSImport("acknowledge", Module)]
    internal static partial Task Acknowledge(JSObject ids);

    [JSImport("awaitAgain", Module)]
    internal static partial Task AwaitAgain(JSObject ids);

    [JSImport("erase", Module)]
    internal static partial Task Erase(JSObject ids);

    [JSImport("putCheckpoint", Module)]
    internal static partial Task PutCheckpoint(string name, JSObject bytes);

    [JSImport("getCheckpoint", Module)]
    internal static partial Task<JSObject?> GetCheckpoint(string name);

    [JSImport("clearCheckpoints", Module)]
    internal static partial Task ClearCheckpoints();

    [JSImport("putFact", Module)]
    internal static partial Task PutFact(string name, JSObject bytes);

    [JSImport("getFact", Module)]
    internal static partial Task<JSObject?> GetFact(string name);

    [JSImport("keepForGood", Module)]
    internal static partial Task<bool> KeepForGood();

    [JSImport("takePen", Module)]
    internal static partial Task TakePen();

    [JSImport("putPenDown", Module)]
    internal static partial void PutPenDown();

    [JSImport("whenOthersWrite", Module)]
    internal static partial void WhenOthersWrite([JSMarshalAs<JSType.Function>] Action told);

    [JSImport("planSounds", Module)]
    internal static partial void PlanSounds(double[] instants, int[] beeps);

    [JSImport("soundState", Module)]
    internal static partial string SoundState();

    [JSImport("focusTitle", Module)]
    internal static partial void FocusTitle();

    [JSImport("feel", Module)]
    internal static partial void Feel();

    [JSImport("keepAwake", Module)]
    internal static partial Task<string> KeepAwake(bool wanted);

    [JSImport("whenSeen", Module)]
    internal static partial void WhenSeen([JSMarshalAs<JSType.Function>] Action told);

    [JSImport("width", Module)]
    internal static partial int Width();

    [JSImport("whenResized", Module)]
    internal static partial void WhenResized([JSMarshalAs<JSType.Function<JSType.Number>>] Action<int> told);

    [JSImport("countTasksOver50", Module)]
    internal static partial int CountTasksOver50(double sincePageMilliseconds);

    [JSImport("pageMilliseconds", Module)]
    internal static partial double PageMilliseconds();

    [JSImport("rest", Module)]
    internal static partial Task Rest();

    [JSImport("download", Module)]
    internal static partial void Download(string name, string mediaType, JSObject bytes);
}
