using Lastoff.App.Device;
using Microsoft.AspNetCore.Components;

namespace Lastoff.App.Frame;

/// <summary>Puts the focus on the heading of a page that was just gone to, so that it is read aloud and the keyboard starts there.</summary>
/// <remarks>The framework's own speaks with the browser in a way that brings along half of what reads JSON.</remarks>
public sealed class FocusOnHeading : ComponentBase
{
    private Type? _page;
    private bool _isNew;

    [Parameter, EditorRequired]
    public required RouteData Route { get; set; }

    protected override void OnParametersSet()
    {
        _isNew = _page != Route.PageType;
        _page = Route.PageType;
    }

    protected override void OnAfterRender(bool firstRender)
    {
        if (_isNew)
        {
            _isNew = false;
            PageModule.FocusHeading();
        }
    }
}
