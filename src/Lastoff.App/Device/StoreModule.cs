using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>The functions of <c>store.js</c>, where they are told.</summary>
internal static partial class StoreModule
{
    private const string Module = "store";

    public static Task LoadAsync() => JSHost.ImportAsync(Module, "../store.js");

    [JSImport("listen", Module)]
    public static partial void Listen([JSMarshalAs<JSType.Function<JSType.String>>] Action<string> heard);

    [JSImport("keepEntry", Module)]
    public static partial Task<bool> KeepEntryAsync(string entry, string? job, JSObject? photos);

    [JSImport("keepArrived", Module)]
    public static partial Task KeepArrivedAsync(string entries, string job);

    [JSImport("markSent", Module)]
    public static partial Task<bool> MarkSentAsync(string ids);

    [JSImport("markRefused", Module)]
    public static partial Task<bool> MarkRefusedAsync(string refusals);

    [JSImport("sendAgain", Module)]
    public static partial Task SendAgainAsync(string job);

    [JSImport("entriesOf", Module)]
    public static partial Task<string> EntriesOfAsync(string job);

    [JSImport("waitingEntries", Module)]
    public static partial Task<string> WaitingEntriesAsync();

    [JSImport("allJobs", Module)]
    public static partial Task<string> AllJobsAsync();

    [JSImport("shownJobs", Module)]
    public static partial Task<string> ShownJobsAsync();

    [JSImport("allMaps", Module)]
    public static partial Task<string> AllMapsAsync();

    [JSImport("mapsWithoutHash", Module)]
    public static partial Task<string> MapsWithoutHashAsync();

    [JSImport("giveHash", Module)]
    public static partial Task<bool> GiveHashAsync(string name, string hash);

    [JSImport("keepSavedText", Module)]
    public static partial Task<bool> KeepSavedTextAsync(string text, string map);

    [JSImport("keepFetchedText", Module)]
    public static partial Task<bool> KeepFetchedTextAsync(string text, string? map);

    [JSImport("textOf", Module)]
    public static partial Task<string> TextOfAsync(string hash);

    [JSImport("waitingTexts", Module)]
    public static partial Task<string> WaitingTextsAsync();

    [JSImport("markText", Module)]
    public static partial Task<bool> MarkTextAsync(string hash, double saving, string? refused, string? newest);

    [JSImport("sendTextsAgain", Module)]
    public static partial Task<bool> SendTextsAgainAsync();

    [JSImport("setting", Module)]
    public static partial Task<string> SettingAsync(string name);

    [JSImport("keepSetting", Module)]
    public static partial Task<bool> KeepSettingAsync(string name, string value);

    [JSImport("hasPhoto", Module)]
    public static partial Task<bool> HasPhotoAsync(string hash);

    [JSImport("waitingPhotos", Module)]
    public static partial Task<string> WaitingPhotosAsync();

    [JSImport("markPhoto", Module)]
    public static partial Task<bool> MarkPhotoAsync(string hash);

    [JSImport("sendPhotosAgain", Module)]
    public static partial Task<bool> SendPhotosAgainAsync();
}
