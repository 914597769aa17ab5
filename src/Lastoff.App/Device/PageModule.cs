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

    [JSImport("goBack", Module)]
    public static partial void GoBack();

    [JSImport("goToLine", Module)]
    public static partial void GoToLine(string area, int line);

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
