using System.Runtime.InteropServices.JavaScript;

namespace Lastoff.App.Device;

/// <summary>The functions of <c>page.js</c>, where they are told.</summary>
internal static partial class PageModule
{
    private const string Module = "page";

    public static Task LoadAsync() => JSHost.ImportAsync(Module, "../page.js");

    [JSImport("download", Module)]
    public static partial void Download(string fileName, string text, string type);

    [JSImport("showSheet", Module)]
    public static partial void ShowSheet(string id);

    /// <summary>Closes it as its own button does: the focus goes back to where it was.</summary>
    [JSImport("closeSheet", Module)]
    public static partial void CloseSheet(string id);

    /// <summary>Puts the focus on an element, unless something has it.</summary>
    [JSImport("focusIfLost", Module)]
    public static partial void FocusIfLost(string id);

    /// <summary>Brings an element into sight and puts the focus on it.</summary>
    [JSImport("goTo", Module)]
    public static partial void GoTo(string id);

    /// <summary>Scrolls what scrolls by itself back to its beginning.</summary>
    [JSImport("toTop", Module)]
    public static partial void ToTop(string id);

    [JSImport("showPressed", Module)]
    public static partial void ShowPressed(string id);

    /// <returns>“sent”, “copied”, or nothing where the browser does neither.</returns>
    [JSImport("passOn", Module)]
    public static partial Task<string> PassOnAsync(string url);

    [JSImport("comeBackTo", Module)]
    public static partial void ComeBackTo(string address);

    [JSImport("goBack", Module)]
    public static partial void GoBack();

    [JSImport("goToLine", Module)]
    public static partial void GoToLine(string area, int line);

    /// <summary>How far the clock on the wall is before UTC at a moment, in minutes.</summary>
    [JSImport("offsetAt", Module)]
    public static partial int OffsetAt_min(double moment_ms);

    /// <summary>When the clock on the wall shows that, in milliseconds since 1970.</summary>
    [JSImport("momentOf", Module)]
    public static partial double MomentOf_ms(int year, int month, int day, int hour, int minute);

    /// <summary>The two letters of the language that the browser is set to.</summary>
    [JSImport("browserLanguage", Module)]
    public static partial string BrowserLanguage();

    /// <summary>Tells the page its language, for who reads it aloud, and the side of the thumb.</summary>
    [JSImport("dress", Module)]
    public static partial void Dress(string language, string hand);

    /// <summary>Keeps the screen from going dark, or lets it.</summary>
    [JSImport("stayAwake", Module)]
    public static partial void StayAwake(bool awake);

    [JSImport("askToStay", Module)]
    public static partial Task<bool> AskToStayAsync();

    [JSImport("whenOnline", Module)]
    public static partial void WhenOnline([JSMarshalAs<JSType.Function>] Action back);

    [JSImport("whenTold", Module)]
    public static partial void WhenTold([JSMarshalAs<JSType.Function>] Action back);

    [JSImport("keepForOffline", Module)]
    public static partial Task<bool> KeepForOfflineAsync([JSMarshalAs<JSType.Function>] Action isReady);

    [JSImport("takeNewVersion", Module)]
    public static partial void TakeNewVersion();
}
